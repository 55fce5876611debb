import { macroArguments } from '../program/macroArguments.ts';
import { isLocal } from '../program/parameters.ts';
import type { Source } from '../syntax/source.ts';
import type { Analysis } from './analysis.ts';
import { flowLines, flowLinesIn } from './flowLines.ts';
import type { Graph } from './graph.ts';
import { linesWithin } from './linesWithin.ts';
import { type ParameterUses, parameterUses } from './parameterUses.ts';
import { oWordOf, type Procedure } from './procedures.ts';
import { toEnd } from './toEnd.ts';

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
export function localScopes(analysis: Analysis): LocalScope[] {
  return toEnd(localScopesInPieces(analysis));
}

/** As `localScopes`; yields where it may pause. */
export function* localScopesInPieces(analysis: Analysis): Generator<undefined, LocalScope[]> {
  const { source, procedures, graphs } = analysis;
  const all = parameterUses(source);
  if (all.length === 0) return [];
  const callsTo = yield* callsIn(source);
  return graphs.flatMap((graph) => {
    const { procedure } = graph;
    const uses = usesIn(procedure, all);
    if (uses.length === 0) return [];
    const calls = procedure === procedures.main ? null : callsTo(procedure.name);
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

function usesIn({ ranges, header }: Procedure, all: readonly ParameterUses[]): readonly ParameterUses[] {
  const within = linesWithin(all, ranges);
  const isWithin = ranges.some(([from, to]) => header >= from && header < to);
  return isWithin ? within : [...linesWithin(all, [[header, header + 1]]), ...within];
}

/** Lines taken between two pauses. */
const atOnce = 2000;

/** How many calls lead to a subroutine, and which numbers they fill; null where a call hands on what it has. */
interface Calls {
  count: number;
  filled: Set<string> | null;
}

/** The calls in the file to a name; what a computed call fills counts for each. */
function* callsIn(source: Source): Generator<undefined, (name: string | null) => Calls> {
  const byName = new Map<string, Calls>();
  const computed: Calls = { count: 0, filled: new Set() };
  const called = (name: string | null): Calls => {
    if (name === null) return computed;
    const calls = byName.get(name) ?? { count: 0, filled: new Set() };
    byName.set(name, calls);
    return calls;
  };
  for (const [i, { block }] of flowLines(source).entries()) {
    if (i % atOnce === 0) yield undefined;
    const flow = oWordOf(block);
    if (flow?.keyword === 'call')
      count(
        called(flow.label),
        // What a call with a fault was meant to hand over is not known.
        block.faults.length > 0 ? null : flow.arguments.map((_, i) => i + 1),
      );
    const words = block.items.filter((item) => item.kind === 'word');
    const target = words.find(({ letter }) => letter === 'P')?.value;
    for (const { letter, value } of words) {
      if (value.kind !== 'number' || !target) continue;
      const code = `${letter}${value.value}`;
      if (!calling.has(code)) continue;
      const calls = called(target.kind === 'number' ? String(Math.round(target.value)) : null);
      count(calls, code === 'G65' || code === 'G66' ? macroArguments(words).keys() : null);
    }
  }
  return (name) => {
    const own = byName.get(name ?? '') ?? { count: 0, filled: new Set<string>() };
    const filled = own.filled && computed.filled && new Set([...own.filled, ...computed.filled]);
    return { count: own.count, filled };
  };
}

/** G66.1 hands on the words of other blocks; what a signal calls by M96, or M98, has the locals of what runs. */
const calling = new Set(['G65', 'G66', 'G66.1', 'M96', 'M98']);

function count(calls: Calls, filled: Iterable<number> | null): void {
  calls.count++;
  if (filled === null) calls.filled = null;
  else for (const number of filled) calls.filled?.add(String(number));
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
