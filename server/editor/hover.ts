import { type Hover, type MarkupContent, MarkupKind, type Position, type Range } from 'vscode-languageserver';
import type { Place } from '../syntax/place.ts';
import type { Program } from '../workspace/program.ts';
import type { ClientFacts } from './clientFacts.ts';
import { datumParts } from './hoverDatum.ts';
import { touchParts } from './hoverTouch.ts';
import { wordParts } from './hoverWord.ts';
import { rangeOf } from './ranges.ts';
import { type Part, toMarkdown, toPlain } from './richText.ts';
import { wordAt } from './wordAt.ts';

/** The most telling thing at a position: the touch, the datum it writes, else the word itself. */
export function hover(program: Program, { line, character }: Position, client: ClientFacts): Hover | null {
  const { source } = program;
  if (line < 0 || line >= source.lineCount) return null;
  const word = wordAt(source.block(line), character);
  if (!word) return null;
  const here = rangeOf({ line, start: word.item.start, end: word.item.end });
  if (word.item.kind === 'comment') return answer(wordParts(program, line, word), here, client);

  const datums = datumsAt(program, { line, start: word.item.start, end: word.item.end });
  if (datums.length > 0) return answer(datumParts(program, datums), here, client);

  const touches = program.analysis.touches.filter((touch) => touch.line === line);
  if (touches.length > 0 && isOfTouch(word.item, touches)) {
    return answer(touchParts(program, touches), here, client);
  }
  return answer(wordParts(program, line, word), here, client);
}

/** The word that makes the touch, and the axis words that say where it goes. */
function isOfTouch(
  item: { kind: string; start: number; end: number; letter?: string },
  touches: readonly { place: Place }[],
): boolean {
  if (touches.some(({ place }) => place.start < item.end && item.start < place.end)) return true;
  return item.kind === 'word' && item.letter !== undefined && 'XYZABC'.includes(item.letter);
}

function datumsAt({ analysis }: Program, at: Place) {
  return analysis.datums.filter(
    ({ place }) => place.line === at.line && place.start < at.end && at.start < place.end,
  );
}

function answer(parts: readonly Part[], range: Range, client: ClientFacts): Hover | null {
  if (parts.length === 0) return null;
  return { contents: contentOf(parts, client), range };
}

function contentOf(parts: readonly Part[], client: ClientFacts): MarkupContent {
  return client.markdown
    ? { kind: MarkupKind.Markdown, value: toMarkdown(parts, { pictures: client.pictures }) }
    : { kind: MarkupKind.PlainText, value: toPlain(parts) };
}
