import type { Analysis } from '../analysis/analysis.ts';
import type { Touch } from '../analysis/model.ts';
import type { Place } from '../syntax/place.ts';
import type { Source } from '../syntax/source.ts';
import { wholeLine } from './blockFacts.ts';
import type { Finding } from './rule.ts';

/** A fault of one touching block. */
export interface TouchFault {
  readonly touch: Touch;
  /** The same block as other chains of calls reach it, the first one included. */
  readonly reached: readonly Touch[];
}

/** One fault for each block, however many chains of calls lead to it. */
export function faultsByBlock(touches: Iterable<Touch>): TouchFault[] {
  const blocks = new Map<string, Touch[]>();
  for (const touch of touches) {
    const key = blockKey(touch);
    blocks.set(key, [...(blocks.get(key) ?? []), touch]);
  }
  return [...blocks.values()].flatMap((reached) => {
    const [touch] = reached;
    return touch ? [{ touch, reached }] : [];
  });
}

/** The touch with each of the known feeds that it may run at: one, or several where paths differ. */
export function withEachFeed(touch: Touch): Touch[] {
  const { feed } = touch;
  if (feed.byPath.length === 0) return [touch];
  return feed.byPath.map(({ value, place }) => ({ ...touch, feed: { ...feed, value, place } }));
}

/** The same for every chain of calls that leads to the block of the touch. */
export function blockKey({ line, place }: Touch): string {
  return `${line}:${place.start}`;
}

/** Where else to look: the calls that lead to the touch. */
export function callsOf({ reached }: TouchFault, source: Source): Finding['related'] {
  const lines = new Set(reached.flatMap(({ calls }) => calls.at(-1) ?? []));
  return [...lines].map((line) => ({ message: 'reached by this call', place: wholeLine(source, line) }));
}

/** The call of a line; the whole line where none is found. */
export function callAt({ graphs, source }: Analysis, line: number): Place {
  for (const { nodes } of graphs)
    for (const { action, actionLine } of nodes)
      if (actionLine === line && action?.kind === 'call') return action.place;
  return wholeLine(source, line);
}
