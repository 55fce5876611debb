import type { Chunk } from './chunk.ts';
import { LineScanner } from './lineScanner.ts';
import { PlainTotals } from './plainTotals.ts';
import type { ProgramLines } from './programLines.ts';
import { textBytes } from './textBytes.ts';

export interface RunTotals {
  readonly totals: PlainTotals;
  /** The line that `feedLine` counts from. */
  readonly first: number;
  /** The line behind the run. */
  readonly end: number;
  /** How many lines had to be read for it. */
  readonly read: number;
}

/**
 * What the lines from `from` on leave behind, up to `to` or the first that is neither plain nor blank. Chunks that the
 * run goes through whole are not read again, nor parts of chunks that were read before. Nobody may change what is given.
 * `sums`: they are asked for, which the totals of a chunk need not have.
 */
export function runTotals(
  lines: ProgramLines,
  from: number,
  to: number,
  { sums }: { readonly sums: boolean },
): RunTotals {
  let run: Summed | null = null;
  let line = from;
  let read = 0;
  while (line < to) {
    const held = lines.chunkAt(line);
    if (!held) break;
    const { chunk, firstLine } = held;
    const start = line - firstLine;
    const last = Math.min(to, held.end) - firstLine;
    const all = start === 0 && last === chunk.lineCount ? chunk.totals : null;
    const stop = all ? last : plainEnd(chunk, start, last);
    if (stop <= start) break;
    const whole = sums && !all?.summed ? null : all;
    const known = whole ?? parts.get(chunk)?.get(partKey(start, stop));
    const next = known ?? part(chunk, start, stop);
    if (!known) read += stop - start;
    run = run === null ? { totals: next, first: line, own: false } : longer(run, next, line);
    line = firstLine + stop;
    if (stop < chunk.lineCount) break;
  }
  return { totals: run?.totals ?? new PlainTotals(), first: run?.first ?? from, end: line, read };
}

interface Summed {
  readonly totals: PlainTotals;
  readonly first: number;
  /** Not a chunk's, and may be added to. */
  readonly own: boolean;
}

function longer({ totals, first, own }: Summed, next: PlainTotals, line: number): Summed {
  const sum = own ? totals : copyOf(totals);
  sum.add(next, line - first);
  return { totals: sum, first, own: true };
}

function copyOf(totals: PlainTotals): PlainTotals {
  const copy = new PlainTotals();
  copy.add(totals, 0);
  return copy;
}

function plainEnd(chunk: Chunk, from: number, to: number): number {
  let line = from;
  while (line < to && chunk.isPlain(line)) line++;
  return line;
}

const parts = new WeakMap<Chunk, Map<number, PlainTotals>>();

/** Of lines of one chunk, of which there are fewer. */
function partKey(from: number, to: number): number {
  return from * 65_536 + to;
}

/** Of some lines of a chunk, all of them plain or blank. */
function part(chunk: Chunk, from: number, to: number): PlainTotals {
  const scanner = new LineScanner();
  const start = chunk.lineStart(from);
  const bytes = textBytes(chunk.text.slice(start, chunk.lineStart(to)));
  for (let line = from; line < to; line++) scanner.scan(bytes, chunk.lineStart(line) - start, line - from);
  const known = parts.get(chunk) ?? new Map<number, PlainTotals>();
  parts.set(chunk, known.set(partKey(from, to), scanner.totals));
  return scanner.totals;
}
