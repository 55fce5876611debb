import type { Position, Range, SelectionRange } from 'vscode-languageserver';
import type { Source } from '../syntax/source.ts';
import type { Expression, Item, Span } from '../syntax/tree.ts';
import type { Program } from '../workspace/program.ts';
import { nameAt, procedureAt } from './names.ts';
import { stretches } from './nesting.ts';
import { rangeOf } from './ranges.ts';
import { routineRange } from './routineName.ts';
import { flowExpressions } from './wordAt.ts';

/** From the name at each position outwards: expressions, the word, the block, branches and loops, the routine, the text. */
export function selectionRanges({ source }: Program, positions: readonly Position[]): SelectionRange[] {
  const all = stretches(source);
  return positions.map((asked) => {
    const position = within(asked, source);
    const wider = all
      .filter(({ from, to }) => from <= position.line && position.line <= to)
      .map(({ from, to }) => lines(from, to, source));
    const routine = procedureAt(source, position.line);
    const ranges = [
      ...inBlock(source, position),
      ...wider,
      ...(routine && routine.header >= 0 ? [routineRange(routine, source)] : []),
      lines(0, source.lineCount - 1, source),
    ];
    return chain(ranges, position);
  });
}

function within({ line, character }: Position, source: Source): Position {
  const at = Math.max(0, Math.min(line, source.lineCount - 1));
  return { line: at, character: Math.max(0, Math.min(character, source.text.line(at).length)) };
}

function inBlock(source: Source, { line, character }: Position): Range[] {
  const block = source.block(line);
  const name = nameAt(source, line, character)?.place;
  const item = block.items.find(({ start, end }) => start <= character && character <= end);
  const spans = item ? [item, ...expressionsOf(item)] : [];
  const first = block.items[0];
  const code = { start: first?.start ?? 0, end: block.items.at(-1)?.end ?? 0 };
  return [...(name ? [name] : []), ...[...spans, code].map((span) => ({ line, ...pick(span) }))]
    .map(rangeOf)
    .concat(lines(line, line, source));
}

function pick({ start, end }: Span): Span {
  return { start, end };
}

function expressionsOf(item: Item): Expression[] {
  switch (item.kind) {
    case 'word':
      return nested(item.value);
    case 'setting':
      return [item.target, item.value].flatMap(nested);
    case 'output':
      return item.parameters.flatMap(nested);
    case 'flow':
      return flowExpressions(item).flatMap(nested);
    default:
      return [];
  }
}

function nested(expression: Expression): Expression[] {
  switch (expression.kind) {
    case 'parameter':
      return [expression, ...('expression' in expression.index ? nested(expression.index.expression) : [])];
    case 'unary':
      return [expression, ...nested(expression.operand)];
    case 'binary':
      return [expression, ...nested(expression.left), ...nested(expression.right)];
    case 'call':
      return [expression, ...expression.arguments.flatMap(nested)];
    default:
      return [expression];
  }
}

function lines(from: number, to: number, source: Source): Range {
  return { start: { line: from, character: 0 }, end: { line: to, character: source.text.line(to).length } };
}

/** Those that hold the position, each inside the next; what only overlaps is left out. */
function chain(ranges: readonly Range[], position: Position): SelectionRange {
  const point: Range = { start: position, end: position };
  const holding = ranges.filter((range) => holds(range, point)).sort((a, b) => extent(b) - extent(a));
  let result: SelectionRange | undefined;
  for (const range of holding) {
    if (result && (!holds(result.range, range) || holds(range, result.range))) continue;
    result = result ? { range, parent: result } : { range };
  }
  return result ?? { range: point };
}

/** Orders ranges that lie in each other: lines weigh more than the longest line. */
function extent({ start, end }: Range): number {
  return (end.line - start.line) * 1e9 + end.character - start.character;
}

function holds(outer: Range, inner: Range): boolean {
  return !isBefore(inner.start, outer.start) && !isBefore(outer.end, inner.end);
}

function isBefore(a: Position, b: Position): boolean {
  return a.line < b.line || (a.line === b.line && a.character < b.character);
}
