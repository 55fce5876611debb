import { type Hover, type MarkupContent, MarkupKind, type Position, type Range } from 'vscode-languageserver';
import type { Datum } from '../analysis/model.ts';
import type { Place } from '../syntax/place.ts';
import type { Program } from '../workspace/program.ts';
import type { ClientFacts } from './clientFacts.ts';
import { operationAt } from './expressionAt.ts';
import { blockDeleteParts, blockStartAt, lineNumberParts } from './hoverBlockStart.ts';
import { datumParts } from './hoverDatum.ts';
import { derivedParts } from './hoverDerived.ts';
import { operationParts } from './hoverItem.ts';
import { touchParts } from './hoverTouch.ts';
import { wordParts } from './hoverWord.ts';
import { rangeOf } from './ranges.ts';
import { type Part, paragraph, toMarkdown, toPlain } from './richText.ts';
import { type WordAt, wordAt } from './wordAt.ts';

/** The most telling thing at a position: the touch, the datum it writes, else the word itself. */
export function hover(program: Program, { line, character }: Position, client: ClientFacts): Hover | null {
  const { source } = program;
  if (line < 0 || line >= source.lineCount) return null;
  const block = source.block(line);
  const first = blockStartAt(block, character);
  if (first) {
    const parts = first.kind === 'delete' ? blockDeleteParts(block) : lineNumberParts(source, line, block);
    return answer(parts, rangeOf({ line, ...first.span }), client);
  }
  const word = wordAt(block, character);
  if (!word) return null;
  const operation = operationAt(word.item, block.text, character);
  if (operation)
    return answer(operationParts(program, line, operation), rangeOf({ line, ...operation }), client);
  const here = rangeOf({ line, start: word.item.start, end: word.item.end });
  const tell = (parts: readonly Part[]) =>
    parts.length === 0 ? null : answer([...parts, ...notFollowed(program, line)], here, client);
  if (word.item.kind === 'comment') return tell(wordParts(program, line, word));

  const datums = datumsAt(program.analysis.datums, line, word);
  if (datums.length > 0) return tell([...datumParts(program, datums), ...wordParts(program, line, word)]);

  const touches = program.analysis.touches.filter((touch) => touch.line === line);
  if (touches.length > 0 && isOfTouch(word.item, touches)) {
    return tell([...touchParts(program, touches), ...wordParts(program, line, word)]);
  }
  return tell([...derivedParts(program, line, word), ...wordParts(program, line, word)]);
}

/** The word that makes the touch, and the axis words that say where it goes. */
function isOfTouch(
  item: { kind: string; start: number; end: number; letter?: string },
  touches: readonly { place: Place }[],
): boolean {
  if (touches.some(({ place }) => place.start < item.end && item.start < place.end)) return true;
  return item.kind === 'word' && item.letter !== undefined && 'XYZABC@^'.includes(item.letter);
}

/** Those that a word writes; on the code of the block, all that the block writes. */
function datumsAt(datums: readonly Datum[], line: number, { item }: WordAt): readonly Datum[] {
  const ofBlock = datums.filter(({ place }) => place.line === line);
  const ofWord = ofBlock.filter(({ place }) => place.start < item.end && item.start < place.end);
  return ofWord.length > 0 || item.kind !== 'word' || item.letter !== 'G' ? ofWord : ofBlock;
}

/** Where the analysis stopped following, it says so: what is shown rests on less than the whole program. */
function notFollowed({ analysis }: Program, line: number): Part[] {
  const here = analysis.notKnown.filter(({ place }) => place.line === line);
  return [...new Set(here.map(({ reason }) => reason))].map((reason) =>
    paragraph(`Not followed here: ${reason}.`),
  );
}

function answer(parts: readonly Part[], range: Range, client: ClientFacts): Hover {
  return { contents: contentOf(parts, client), range };
}

function contentOf(parts: readonly Part[], client: ClientFacts): MarkupContent {
  return client.markdown
    ? { kind: MarkupKind.Markdown, value: toMarkdown(parts, { pictures: client.pictures }) }
    : { kind: MarkupKind.PlainText, value: toPlain(parts) };
}
