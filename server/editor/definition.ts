import type { Location, Position } from 'vscode-languageserver';
import { proceduresOf } from '../analysis/procedures.ts';
import type { Place } from '../syntax/place.ts';
import type { Source } from '../syntax/source.ts';
import type { Flow, Item } from '../syntax/tree.ts';
import type { Program } from '../workspace/program.ts';
import { parameterName } from './parameterName.ts';
import { occurrencesOf } from './parameterScope.ts';
import { rangeOf } from './ranges.ts';
import { wordAt } from './wordAt.ts';

/** Where a parameter is set, a subroutine begins, a block number stands. */
export function definition(program: Program, { line, character }: Position): Location[] {
  const { source, uri } = program;
  const locations = (places: readonly Place[]) => places.map((place) => ({ uri, range: rangeOf(place) }));
  if (line < 0 || line >= source.lineCount) return [];
  const word = wordAt(source.block(line), character);
  if (!word) return [];
  const name = word.parameter && parameterName(word.parameter);
  if (name) {
    return locations(
      occurrencesOf(source, name, line)
        .filter(({ isSet }) => isSet)
        .map(({ place }) => place),
    );
  }
  const target = calledBy(word.item) ?? calledByWord(source, line, word.item);
  if (target !== null) return locations(subroutine(source, target));
  const block = blockNumber(word.item);
  return block === null ? [] : locations(blocksNumbered(source, block));
}

/** Every place where the parameter at a position is set or read; nothing for other things yet. */
export function references(
  program: Program,
  { line, character }: Position,
  withSettings: boolean,
): Location[] {
  const { source, uri } = program;
  if (line < 0 || line >= source.lineCount) return [];
  const parameter = wordAt(source.block(line), character)?.parameter;
  const name = parameter ? parameterName(parameter) : null;
  if (name === null) return [];
  return occurrencesOf(source, name, line)
    .filter(({ isSet }) => withSettings || !isSet)
    .map(({ place }) => ({ uri, range: rangeOf(place) }));
}

function calledBy(item: Item): string | null {
  return item.kind === 'flow' && item.form === 'o-word' && item.keyword === 'call' ? item.label : null;
}

/** M98 P…, G65 P…: the P word of a block that calls. */
function calledByWord(source: Source, line: number, item: Item): string | null {
  if (item.kind !== 'word' || item.letter !== 'P' || item.value.kind !== 'number') return null;
  const calls = source
    .block(line)
    .items.some(
      (each) =>
        each.kind === 'word' &&
        each.value.kind === 'number' &&
        ((each.letter === 'M' && each.value.value === 98) ||
          (each.letter === 'G' && each.value.value === 65)),
    );
  return calls ? String(item.value.value) : null;
}

function subroutine(source: Source, name: string): Place[] {
  const place = proceduresOf(source).byName.get(name)?.place;
  return place ? [place] : [];
}

function blockNumber(item: Item): number | null {
  if (item.kind !== 'flow' || !isGoto(item)) return null;
  return item.target.kind === 'number' ? item.target.value : null;
}

function isGoto(flow: Flow): flow is Extract<Flow, { form: 'goto' }> {
  return flow.form === 'goto';
}

function blocksNumbered(source: Source, number: number): Place[] {
  const found: Place[] = [];
  const digits = new RegExp(`n\\s*0*${number}(?!\\d)`, 'i');
  for (let line = 0; line < source.lineCount; line++) {
    if (!digits.test(source.text.line(line))) continue;
    const label = source.block(line).lineNumber;
    if (label?.value === number) found.push({ line, start: label.start, end: label.end });
  }
  return found;
}
