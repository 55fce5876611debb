import { macroArguments } from '../program/macroArguments.ts';
import { isLocal } from '../program/parameters.ts';
import type { Source } from '../syntax/source.ts';
import type { Analysis } from './analysis.ts';
import { flowLines, flowLinesIn } from './flowLines.ts';
import type { Graph } from './graph.ts';
import { type ParameterUses, parameterUses } from './parameterUses.ts';
import { oWordOf, type Procedure } from './procedures.ts';

/** A procedure with what it does to its own locals. */
export interface LocalScope {
  readonly graph: Graph;
  readonly uses: readonly ParameterUses[];
  /** A subroutine that something in the file calls by its name, in a file that has a main program. */
  readonly isCalledHere: boolean;
  /** Nothing in the file calls it: what its caller hands over is not known. */
  readonly isOpen: boolean;
  /** Locals of numbers that are its own, and that no call in the file fills; null: its numbers may be shared or filled. */
  readonly filled: ReadonlySet<string> | null;
  /** It reads or sets parameters by computed numbers. */
  readonly hasComputed: boolean;
}

/** The procedures of a program that have parameters, with their locals. */
export function localScopes({ source, procedures, graphs }: Analysis): LocalScope[] {
  const all = parameterUses(source);
  if (all.length === 0) return [];
  return graphs.flatMap((graph) => {
    const { procedure } = graph;
    const uses = all.filter(({ line }) => isIn(line, procedure));
    if (uses.length === 0) return [];
    const calls = procedure === procedures.main ? null : callsTo(procedure, source);
    const isOpen = calls !== null && calls.count === 0;
    const isCalledHere = calls !== null && calls.count > 0 && procedures.main !== null;
    const hasComputed = uses.some(({ reads, sets }) => [...reads, ...sets].some(({ name }) => name === null));
    const own = isCalledHere && calls.filled !== null && !sharesLocals(procedure, source);
    return [{ graph, uses, isCalledHere, isOpen, filled: own ? calls.filled : null, hasComputed }];
  });
}

/** Is it a name of the procedure’s own, or a number that only this procedure and its calls fill? */
export function isOwnLocal(name: string, { filled }: LocalScope, source: Source): boolean {
  if (!isLocal(name, source.dialect.name)) return false;
  return /^\d/.test(name) ? filled !== null : source.dialect.oWords;
}

function isIn(line: number, { ranges, header }: Procedure): boolean {
  return line === header || ranges.some(([from, to]) => line >= from && line < to);
}

/** How many calls lead to it, and which numbers they fill; null where a call hands on what it has. */
function callsTo({ name }: Procedure, source: Source): { count: number; filled: Set<string> | null } {
  let count = 0;
  let filled: Set<string> | null = new Set();
  const fill = (numbers: Iterable<number>) => {
    for (const number of numbers) filled?.add(String(number));
  };
  for (const { block } of flowLines(source)) {
    const flow = oWordOf(block);
    if (flow?.keyword === 'call' && (flow.label === name || flow.label === null)) {
      if (flow.label !== null) count++;
      fill(flow.arguments.map((_, i) => i + 1));
    }
    const words = block.items.filter((item) => item.kind === 'word');
    const called = words.find(({ letter }) => letter === 'P');
    for (const { letter, value } of words) {
      if (value.kind !== 'number' || !called) continue;
      const code = `${letter}${value.value}`;
      if (code !== 'G65' && code !== 'G66' && code !== 'M98') continue;
      const isComputed = called.value.kind !== 'number';
      if (!isComputed && String(Math.round((called.value as { value: number }).value)) !== name) continue;
      if (!isComputed) count++;
      if (code === 'M98') filled = null;
      else fill(macroArguments(words).keys());
    }
  }
  return { count, filled };
}

/** M98 of the macro family hands its caller’s locals on as they are. */
function sharesLocals({ ranges }: Procedure, source: Source): boolean {
  if (source.dialect.oWords) return false;
  return flowLinesIn(source, ranges).some(({ block }) =>
    block.items.some(
      (item) =>
        item.kind === 'word' &&
        item.letter === 'M' &&
        (item.value.kind !== 'number' || item.value.value === 98),
    ),
  );
}
