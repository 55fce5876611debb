import type { Source } from '../syntax/source.ts';
import { linesWithin } from './linesWithin.ts';
import { isOwnLocal, type LocalScope } from './localScopes.ts';
import type { ParameterRead, ParameterUses } from './parameterUses.ts';
import { toEnd } from './toEnd.ts';

/**
 * The first read of each local that no path sets before it; what a test looks at counts as set from there on, as an
 * optional argument that is not given is. May-analysis over the graph: from bottom, each node’s names joined.
 */
export function readBeforeSet(scope: LocalScope, source: Source): ParameterRead[] {
  return toEnd(readBeforeSetInPieces(scope, source));
}

/** As `readBeforeSet`; yields where it may pause. */
export function* readBeforeSetInPieces(
  scope: LocalScope,
  source: Source,
): Generator<undefined, ParameterRead[]> {
  const { graph, uses, filled } = scope;
  const asked = (name: string | null): name is string =>
    name !== null && isOwnLocal(name, scope, source) && !filled?.has(name);
  if (!uses.some(({ reads }) => reads.some(({ name }) => asked(name)))) return [];
  const inNode: ParameterUses[][] = [];
  for (const { ranges } of graph.nodes) {
    inNode.push(linesWithin(uses, ranges));
    if (inNode.length % atOnce === 0) yield undefined;
  }
  const added = inNode.map((own) => new Set(own.flatMap((each) => [...namesSet(each)])));
  const before: (Set<string> | null)[] = graph.nodes.map(() => null);
  if (before.length > 0) before[0] = new Set();
  yield undefined;
  const waiting = [0];
  let steps = 0;
  for (let id = waiting.pop(); id !== undefined; id = waiting.pop()) {
    if (++steps % atOnce === 0) yield undefined;
    const after = new Set([...(before[id] ?? []), ...(added[id] ?? [])]);
    for (const to of graph.nodes[id]?.successors ?? []) {
      if (to < 0) continue;
      const known = before[to];
      const size = known?.size ?? -1;
      const joined = known ?? new Set<string>();
      for (const name of after) joined.add(name);
      before[to] = joined;
      if (joined.size > size) waiting.push(to);
    }
  }
  const first = new Map<string, ParameterRead>();
  for (const [id, own] of inNode.entries()) {
    if (id % atOnce === 0) yield undefined;
    const set = before[id];
    if (!set) continue;
    for (const each of own) {
      // Controls differ about a name that its own block sets first.
      for (const { name } of each.sets) if (name !== null) set.add(name);
      for (const read of each.reads)
        if (isUse(read) && asked(read.name) && !set.has(read.name) && !set.has(anyNumber))
          if (!first.has(read.name)) first.set(read.name, read);
      for (const name of namesSet(each)) set.add(name);
    }
  }
  return [...first.values()];
}

/** Nodes taken between two pauses. */
const atOnce = 1000;

/** Stands for all numbers, where a computed one was set. */
const anyNumber = '#';

function* namesSet({ reads, sets }: LocalScope['uses'][number]): Iterable<string> {
  for (const { name } of sets) yield name ?? anyNumber;
  for (const { name, how } of reads) if (name !== null && (how === 'test' || how === 'exists')) yield name;
}

/** A test of a number may ask whether an argument was given; a name that is not there is an error wherever it is read. */
function isUse({ name, how }: ParameterRead): boolean {
  if (how === 'value') return true;
  return how === 'test' && name !== null && !/^\d/.test(name);
}
