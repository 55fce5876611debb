import type { Graph, Node } from './graph.ts';

/** The nodes of a procedure that one turn back of the flow repeats. */
export interface Loop {
  readonly nodes: ReadonlySet<number>;
  /** Branches of which one side leaves it. */
  readonly exits: readonly Node[];
}

/** Loops that are looked for in one procedure: a file with more is generated. */
const mostLoops = 200;

/** Every loop of a procedure, a jump to one's own label too: what a turn back reaches, and what reaches it again. */
export function loopsOf({ nodes }: Graph): Loop[] {
  const turns = nodes.flatMap(({ id, successors }) =>
    successors.filter((to) => to >= 0 && to <= id).map((to) => ({ from: id, to })),
  );
  if (turns.length === 0) return [];
  const before: number[][] = nodes.map(() => []);
  for (const { id, successors } of nodes) for (const to of successors) before[to]?.push(id);
  const after = nodes.map(({ successors }) => successors.filter((to) => to >= 0));
  return turns.slice(0, mostLoops).flatMap(({ from, to }) => {
    const ahead = reached(to, after);
    if (!ahead.has(from)) return [];
    const behind = reached(from, before);
    const inside = new Set([...ahead].filter((id) => behind.has(id)));
    const exits = nodes.filter(
      ({ id, action, successors }) =>
        inside.has(id) && action?.kind === 'branch' && successors.some((next) => !inside.has(next)),
    );
    return [{ nodes: inside, exits }];
  });
}

function reached(start: number, edges: readonly (readonly number[])[]): Set<number> {
  const seen = new Set([start]);
  for (const id of seen) for (const next of edges[id] ?? []) seen.add(next);
  return seen;
}
