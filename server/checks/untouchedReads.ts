import type { Graph, Node } from '../analysis/graph.ts';
import { linesWithin } from '../analysis/linesWithin.ts';
import { loopsOf } from '../analysis/loops.ts';
import type { ParameterRead } from '../analysis/parameterUses.ts';

/** What a line does to the matter; it reads before it touches. */
export interface Event {
  readonly line: number;
  readonly read: ParameterRead | null;
  readonly touches: boolean;
}

export interface UntouchedRead {
  readonly read: ParameterRead;
  /** The line of the branch past the touch; null where no path touches before it is read first. */
  readonly past: number | null;
}

/**
 * The reads of a procedure that come before any touch: on every path until they are read first, or where one side of a
 * branch passes the only touch by and cannot but come to the read. A read under a condition of its own may hang on the
 * same thing as the touch. Yields undefined where it may pause.
 */
export function* untouchedReads(
  graph: Graph,
  events: readonly Event[],
): Generator<undefined, UntouchedRead[]> {
  const steps = new Map<number, Step>();
  for (const node of graph.nodes) {
    steps.set(node.id, passing(node, events));
    if (node.id % atOnce === 0) yield undefined;
  }
  const flow = { graph, steps };
  const untouched = yield* reachedFrom([0], flow, { touching: false, without: null });
  const reading = [...untouched].filter((id) => (steps.get(id)?.reads.length ?? 0) > 0);
  const found = new Map<ParameterRead, number | null>();
  for (const id of reading.slice(0, mostReads)) {
    if (!(yield* isFirst(id, flow))) continue;
    for (const read of steps.get(id)?.reads ?? []) found.set(read, null);
  }
  if (found.size < reading.length)
    for (const [read, line] of yield* pastTouches(untouched, flow))
      if (!found.has(read)) found.set(read, line);
  return [...found].map(([read, past]) => ({ read, past }));
}

interface Step {
  /** What is read before the node touches. */
  readonly reads: readonly ParameterRead[];
  readonly touches: boolean;
}

interface Flow {
  readonly graph: Graph;
  readonly steps: ReadonlyMap<number, Step>;
}

/** Nodes taken between two pauses. */
const atOnce = 1000;
/** Nodes with a read that are looked at: each may cost a look at the whole procedure. */
const mostReads = 32;

/** What a node reads before it touches, and whether it does. */
function passing({ ranges, action, actionLine }: Node, events: readonly Event[]): Step {
  const own = linesWithin(events, ranges);
  if (action && !own.some(({ line }) => line === actionLine))
    own.push(...linesWithin(events, [[actionLine, actionLine + 1]]));
  const first = own.findIndex(({ touches }) => touches);
  const before = first < 0 ? own : own.slice(0, first + 1);
  return {
    reads: before.flatMap(({ read }) => read ?? []),
    touches: first >= 0 || action?.kind === 'call',
  };
}

/** What follows the starts: not behind a touch, where that is asked, and never by way of one node. */
function* reachedFrom(
  starts: readonly number[],
  { graph, steps }: Flow,
  { touching, without }: { readonly touching: boolean; readonly without: number | null },
): Generator<undefined, Set<number>> {
  const reached = new Set(starts);
  let taken = 0;
  for (const id of reached) {
    if (++taken % atOnce === 0) yield undefined;
    if (id === without || (!touching && steps.get(id)?.touches)) continue;
    for (const to of graph.nodes[id]?.successors ?? []) if (to >= 0) reached.add(to);
  }
  return reached;
}

/** Nothing touches before the node comes for the first time. */
function* isFirst(id: number, flow: Flow): Generator<undefined, boolean> {
  const before = yield* reachedFrom([0], flow, { touching: true, without: id });
  const touching = [...before].filter((each) => each !== id && flow.steps.get(each)?.touches);
  if (touching.length === 0) return true;
  const after = yield* reachedFrom(touching, flow, { touching: true, without: null });
  return !after.has(id);
}

/** Of branches before any touch, and no turn of a loop: the reads that a side without a touch comes to in any case. */
function* pastTouches(
  untouched: ReadonlySet<number>,
  flow: Flow,
): Generator<undefined, Map<ParameterRead, number>> {
  const { graph, steps } = flow;
  const touching = [...steps].flatMap(([id, { touches }]) => (touches ? [id] : []));
  const touched = yield* reachedFrom(
    touching.flatMap((id) => graph.nodes[id]?.successors ?? []),
    flow,
    { touching: true, without: null },
  );
  const turning = new Set(loopsOf(graph).flatMap(({ nodes }) => [...nodes]));
  const found = new Map<ParameterRead, number>();
  for (const id of untouched) {
    const node = graph.nodes[id];
    if (node?.action?.kind !== 'branch' || touched.has(id) || turning.has(id) || steps.get(id)?.touches)
      continue;
    for (const side of node.successors)
      for (const read of comesTo(side, flow)) if (!found.has(read)) found.set(read, node.actionLine);
    yield undefined;
  }
  return found;
}

/** The reads that the one way on from a node comes to before it divides, touches or ends. */
function comesTo(start: number, { graph, steps }: Flow): readonly ParameterRead[] {
  const reads: ParameterRead[] = [];
  const seen = new Set<number>();
  for (let id = start; id >= 0 && !seen.has(id); ) {
    seen.add(id);
    const step = steps.get(id);
    reads.push(...(step?.reads ?? []));
    const successors = graph.nodes[id]?.successors ?? [];
    const [next] = successors;
    if (step?.touches || successors.length !== 1 || next === undefined) break;
    id = next;
  }
  return reads;
}
