import type { Chunk } from './chunk.ts';
import { lineKind } from './lineClass.ts';
import type { Splice } from './sourceText.ts';

/** Indices of the chunks that somebody looks for, in order: of a million lines of milling, few. */
export interface NotableChunks {
  /** Those that hold lines of class 2. */
  readonly others: readonly number[];
  /** Those that hold lines with a number of more than five digits. */
  readonly long: readonly number[];
}

export function notableChunks(chunks: readonly Chunk[], from: number, to: number): NotableChunks {
  const others: number[] = [];
  const long: number[] = [];
  for (let at = from; at < to; at++) {
    const chunk = chunks[at];
    if (chunk?.totals === null) others.push(at);
    if (chunk?.has(lineKind.plainLong)) long.push(at);
  }
  return { others, long };
}

/** After chunks gave way to others: only the new ones are looked at. */
export function notableAfter(before: NotableChunks, { text, first, removed, added }: Splice): NotableChunks {
  const fresh = notableChunks(text.chunks, first, first + added);
  const replaced = (old: readonly number[], now: readonly number[]) => {
    const all: number[] = [];
    let i = 0;
    for (; i < old.length && (old[i] as number) < first; i++) all.push(old[i] as number);
    for (const at of now) all.push(at);
    for (; i < old.length; i++)
      if ((old[i] as number) >= first + removed) all.push((old[i] as number) + added - removed);
    return all;
  };
  return { others: replaced(before.others, fresh.others), long: replaced(before.long, fresh.long) };
}

interface LongLines {
  readonly first: number | null;
  readonly count: number;
}

/** Lines with a number of more than five digits among those of a chunk, counted in it. */
export function longLinesIn(chunk: Chunk, { from, to }: { from: number; to: number }): LongLines {
  if (from > 0 || to < chunk.lineCount) return counted(chunk, Math.max(0, from), to);
  const known = ofWhole.get(chunk) ?? counted(chunk, 0, chunk.lineCount);
  ofWhole.set(chunk, known);
  return known;
}

const ofWhole = new WeakMap<Chunk, LongLines>();

function counted(chunk: Chunk, from: number, to: number): LongLines {
  let first: number | null = null;
  let count = 0;
  for (let line = from; line < Math.min(to, chunk.lineCount); line++) {
    if (chunk.kind(line) !== lineKind.plainLong) continue;
    first ??= line;
    count++;
  }
  return { first, count };
}
