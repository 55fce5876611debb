import type { CallChain } from './callChains.ts';
import type { Flowing } from './flowing.ts';
import type { Graph, Node } from './graph.ts';
import type { Stretch } from './passage.ts';
import type { Passages } from './passages.ts';
import type { Resumes } from './resumes.ts';

/** A run of a procedure as the last pass saw it: what held on entry to each of its nodes. */
export interface Visit {
  readonly graph: Graph;
  readonly chain: CallChain;
  readonly entries: readonly (Flowing | null)[];
}

interface Followed {
  readonly visits: readonly Visit[];
  readonly resumes: Resumes;
}

/** What holds behind a line, which is no jump, call or test, on each visit of its procedure. Yields where it may pause. */
export function* flowsBehind(
  line: number,
  followed: Followed,
  passages: Passages,
): Generator<void, Flowing[]> {
  return yield* flowsAt(line, line + 1, followed, ({ from, to, optionalEnd }, flow, chain) =>
    passages.behind({ from, to: Math.min(to, line + 1), optionalEnd }, flow, chain),
  );
}

/** What holds before a line on each visit of its procedure, for a person who asks. */
export function* flowsBefore(
  line: number,
  followed: Followed,
  passages: Passages,
): Generator<void, Flowing[]> {
  return yield* flowsAt(line, line, followed, (stretch, flow, chain) =>
    line < stretch.to ? passages.before(line, stretch, flow, chain) : passages.behind(stretch, flow, chain),
  );
}

type Through = (stretch: Stretch, flow: Flowing, chain: CallChain) => Generator<void, Flowing | null>;

/** `asked`: the line whose beginning is asked for. */
function* flowsAt(
  line: number,
  asked: number,
  { visits, resumes }: Followed,
  through: Through,
): Generator<void, Flowing[]> {
  const flows: Flowing[] = [];
  for (const { graph, chain, entries } of visits) {
    const node = graph.nodes.find((n) => n.ranges.some(([a, b]) => line >= a && line < b));
    let flow: Flowing | null = (node && entries[node.id]) ?? null;
    for (const [from, to] of node?.ranges ?? []) {
      if (!node || !flow || from > line) break;
      const resume = resumes.lastIn(chain, from + 1, Math.min(asked, to) + 1);
      flow = yield* through(stretchOf(node, resume?.line ?? from, to), resume?.flow ?? flow, chain);
    }
    if (flow) flows.push(flow);
  }
  return flows;
}

/** Lines of a node as they are run. */
export function stretchOf({ action, actionLine }: Node, from: number, to: number): Stretch {
  return { from, to, optionalEnd: action?.kind === 'branch' ? actionLine : null };
}
