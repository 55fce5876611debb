import type { Ending } from '../program/execute.ts';
import type { CallChain } from './callChains.ts';
import type { Flowing } from './flowing.ts';
import type { FollowedChunk } from './followedText.ts';
import { identicalFlows } from './identicalFlows.ts';
import type { Record } from './record.ts';

/** Flows that a stretch is remembered for: a loop comes by with a few. */
const mostRemembered = 4;
/** Above the number of lines of any chunk. */
const lineLimit = 4096;

/** How a run of lines ended; 'modal-call': a macro is to be called before the next one. */
export type LinesEnding = Ending | 'modal-call';

/**
 * What some lines of one chunk did to what flowed into them. It rests on nothing but the lines and the flow: where both
 * are the same again, so is all else, and nothing is run.
 */
export interface Passage {
  /** The lines within their chunk and the calls that led there, as one number. */
  readonly key: number;
  readonly entry: Flowing;
  readonly exit: Flowing;
  readonly ending: LinesEnding;
  /** The name of the line where it ended; of no use where it did not. */
  readonly endedAt: number;
  /** What is to be written down of it; null: nothing. */
  readonly record: Record | null;
  readonly steps: number;
}

export interface Stretch {
  /** Half-open, of lines. */
  readonly from: number;
  readonly to: number;
  /** A line whose end of the program may be skipped: the driver decides. */
  readonly optionalEnd: number | null;
}

/** Lines of a chunk, counted in it. */
export interface Part {
  readonly start: number;
  readonly end: number;
  /** A line whose end of the program may be skipped. */
  readonly optional: number | null;
  readonly key: number;
}

/** What lies in the chunk of a stretch from a line on. */
export function partOf(
  { firstLine, chunk }: FollowedChunk,
  line: number,
  { to, optionalEnd }: Pick<Stretch, 'to' | 'optionalEnd'>,
  chain: CallChain,
): Part {
  const start = line - firstLine;
  const end = Math.min(to - firstLine, chunk.lineCount);
  const stop = optionalEnd === null ? -1 : optionalEnd - firstLine;
  const optional = stop >= start && stop < end ? stop : null;
  const key = (chain.id * 2 + (optional === null ? 0 : 1)) * lineLimit ** 2 + start * lineLimit + end;
  return { start, end, optional, key };
}

/** What a part of a chunk did last to the same flow. */
export function remembered(chunk: FollowedChunk, key: number, entry: Flowing): Passage | null {
  const { latest, passages } = chunk;
  const fits = (passage: Passage) => identicalFlows(passage.entry, entry);
  const found = latest?.key === key && fits(latest) ? latest : (passages?.get(key)?.find(fits) ?? null);
  if (found && found !== latest) remember(chunk, found);
  return found;
}

/** Keeps what a part of a chunk did; a few flows are kept for each part. */
export function remember(chunk: FollowedChunk, passage: Passage): void {
  const { latest } = chunk;
  chunk.latest = passage;
  if (!latest) return;
  chunk.passages ??= new Map();
  const known = chunk.passages.get(latest.key) ?? [];
  if (!known.includes(latest)) known.unshift(latest);
  if (known.length > mostRemembered) known.pop();
  chunk.passages.set(latest.key, known);
}
