import { callSiteOf, labelName } from '../analysis/callSites.ts';
import { type Procedure, proceduresOf } from '../analysis/procedures.ts';
import { isLocal } from '../program/parameters.ts';
import type { Place } from '../syntax/place.ts';
import type { Source } from '../syntax/source.ts';
import type { OWordFlow } from '../syntax/tree.ts';
import { parameterAt } from './blockParameters.ts';
import { parameterName } from './parameterName.ts';

/** Something that a program calls by a name, as meant at one place. `within` is the procedure whose own it is. */
export type Name =
  /** `within` null: every program that runs shares it. */
  | { readonly kind: 'parameter'; readonly name: string; readonly within: Procedure | null }
  /** Of a subroutine; where it stands is for the calls to find. */
  | { readonly kind: 'subroutine'; readonly name: string }
  /** An N number in the macro dialect, where GOTO finds it. */
  | { readonly kind: 'block'; readonly name: string; readonly within: Procedure | null }
  /** The label of an if or a loop. */
  | { readonly kind: 'flow'; readonly name: string; readonly within: Procedure | null };

export interface NameAt {
  readonly name: Name;
  /** Of the name alone: `edge` in `#<edge>`, `100` in `o100`. */
  readonly place: Place;
}

/** The name at a position; null where none stands, or one that the program computes. */
export function nameAt(source: Source, line: number, character: number): NameAt | null {
  if (line < 0 || line >= source.lineCount) return null;
  return (
    parameterNameAt(source, line, character) ??
    labelAt(source, line, character) ??
    numberAt(source, line, character) ??
    blockNumberAt(source, line, character)
  );
}

/** The procedure that a line belongs to; its header counts as part of it. */
export function procedureAt(source: Source, line: number): Procedure | null {
  return proceduresOf(source).all.find((each) => procedureHolds(each, line)) ?? null;
}

export function procedureHolds({ header, ranges }: Procedure, line: number): boolean {
  return line === header || ranges.some(([from, to]) => from <= line && line < to);
}

/** The O-word keywords that name a subroutine; those of all others are labels of flow. */
export function namesSubroutine({ keyword }: OWordFlow): boolean {
  return keyword === 'sub' || keyword === 'endsub' || keyword === 'return' || keyword === 'call';
}

function parameterNameAt(source: Source, line: number, character: number): NameAt | null {
  const parameter = parameterAt(source, line, character);
  const name = parameter && parameterName(parameter);
  if (!parameter || name === null) return null;
  const within = isLocal(name, source.dialect.name) ? procedureAt(source, line) : null;
  const { start, end } = parameter;
  const named = source.block(line).text.charAt(end - 1) === '>';
  const open = source.block(line).text.indexOf('<', start);
  const place =
    named && open >= 0 ? { line, start: open + 1, end: end - 1 } : { line, start: start + 1, end };
  return { name: { kind: 'parameter', name, within }, place };
}

function labelAt(source: Source, line: number, character: number): NameAt | null {
  const { items, text } = source.block(line);
  for (const item of items) {
    if (item.kind !== 'flow' || item.form !== 'o-word' || item.label === null) continue;
    if (character < item.labelSpan.start || character > item.keywordSpan.end) continue;
    const place = { line, ...labelName(text, item.labelSpan) };
    if (namesSubroutine(item)) return { name: { kind: 'subroutine', name: item.label }, place };
    return { name: { kind: 'flow', name: item.label, within: procedureAt(source, line) }, place };
  }
  return null;
}

/** `P9810` of a call, `O9810` of a program. */
function numberAt(source: Source, line: number, character: number): NameAt | null {
  const block = source.block(line);
  const word = block.items.find(
    (item) => item.kind === 'word' && item.start <= character && character <= item.end,
  );
  if (word?.kind !== 'word' || word.value.kind !== 'number') return null;
  const call = word.letter === 'P' ? callSiteOf(block, line) : null;
  if (call?.place.start === word.value.start)
    return { name: { kind: 'subroutine', name: call.name }, place: call.place };
  if (word.letter !== 'O') return null;
  const { start, end, value } = word.value;
  return { name: { kind: 'subroutine', name: String(value) }, place: { line, start, end } };
}

function blockNumberAt(source: Source, line: number, character: number): NameAt | null {
  if (!source.dialect.macroFlow) return null;
  const named = [...blockNumbers(source, line)].find(
    ({ start, end, within }) => Math.min(start, within) <= character && character <= end,
  );
  if (!named) return null;
  const within = procedureAt(source, line);
  const place = { line, start: named.start, end: named.end };
  return { name: { kind: 'block', name: String(named.number), within }, place };
}

export interface BlockNumber {
  readonly number: number;
  readonly start: number;
  readonly end: number;
  /** Where the word that holds it begins. */
  readonly within: number;
  readonly isTarget: boolean;
}

/** The N number of a line (`isTarget`), and the one that a GOTO in it names. */
export function* blockNumbers(source: Source, line: number): Iterable<BlockNumber> {
  const { lineNumber, items, text } = source.block(line);
  if (lineNumber && lineNumber.value !== null) {
    const digits = /\d[\d \t]*/.exec(text.slice(lineNumber.start, lineNumber.end));
    const start = lineNumber.start + (digits?.index ?? 1);
    yield { number: lineNumber.value, start, end: lineNumber.end, within: lineNumber.start, isTarget: true };
  }
  for (const item of items) {
    if (item.kind !== 'flow' || item.form !== 'goto' || item.target.kind !== 'number') continue;
    const { value, start, end } = item.target;
    const within = text.slice(0, start).toUpperCase().lastIndexOf('G');
    yield { number: value, start, end, within: within < 0 ? start : within, isTarget: false };
  }
}
