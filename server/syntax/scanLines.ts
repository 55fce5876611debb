import { code } from './charCodes.ts';
import { distanceAt, lineKind } from './lineClass.ts';
import { LineScanner } from './lineScanner.ts';
import { PlainTotals, totalsLength } from './plainTotals.ts';
import { meetEveryKind, QuickLines } from './quickLines.ts';

/** A chunk has this many lines when a text is cut; edits let it grow to `mostLines`, so that they seldom split one. */
export const linesPerChunk = 256;
export const mostLines = 320;
const charactersPerChunk = 65_536;

/** What stands behind the bytes: more of the text, a chunk of its own, nothing. */
export type Behind = 'more' | 'chunk' | 'nothing';

/** The lines of a chunk. */
export interface ScannedLines {
  readonly count: number;
  /** From `at` on the offset of each line from the first. */
  readonly starts: Uint32Array;
  /** From `at` on the class of each line, see `lineKind`. */
  readonly kinds: Uint8Array;
  readonly at: number;
  /** Bit n: a line of class n is there. */
  readonly kindsMet: number;
  readonly outsideAscii: boolean;
  /** null where a line is neither plain nor blank. */
  readonly totals: PlainTotals | null;
  /** Where the last line ends, its ending taken in. */
  readonly end: number;
  /** Behind the last line comes nothing, not even an empty line. */
  readonly isLast: boolean;
}

/**
 * Where the lines of chunks are written to: of one, or of many that live about as long. Thousands of small arrays cost
 * more than they hold.
 */
export class LineMemory {
  starts: Uint32Array;
  kinds: Uint8Array;
  /** Lines that are written down. */
  used = 0;
  /** For the next plain chunk; zeros or not. */
  totals: PlainTotals;
  /** The lines now are in G91, it seems: their sums will be asked for. */
  incremental = false;
  #values: Float64Array;
  #valuesUsed = 0;

  /** @param linesEach the most that a chunk has */
  constructor(
    private readonly chunks: number,
    private readonly linesEach = mostLines,
  ) {
    this.starts = new Uint32Array(chunks * linesEach);
    this.kinds = new Uint8Array(chunks * linesEach);
    this.#values = new Float64Array((chunks + 1) * totalsLength);
    this.totals = this.#nextTotals();
  }

  /** Room for one more chunk; what was written before stays with who has it. */
  makeRoom(): void {
    if (this.used + this.linesEach <= this.kinds.length) return;
    this.starts = new Uint32Array(this.chunks * this.linesEach);
    this.kinds = new Uint8Array(this.chunks * this.linesEach);
    this.used = 0;
  }

  takeTotals(): PlainTotals {
    const { totals } = this;
    this.totals = this.#nextTotals();
    return totals;
  }

  #nextTotals(): PlainTotals {
    if (this.#valuesUsed === this.chunks + 1) {
      this.#values = new Float64Array((this.chunks + 1) * totalsLength);
      this.#valuesUsed = 0;
    }
    const from = this.#valuesUsed++ * totalsLength;
    return new PlainTotals(this.#values.subarray(from, from + totalsLength));
  }
}

const { carriageReturn, lineFeed } = code;
const scanner = new LineScanner();
const quick = new QuickLines();

/** To be called before a long text is scanned. */
export function prepareForLongText(): void {
  meetEveryKind(quick);
}

const plainKinds = (1 << lineKind.blank) | (1 << lineKind.plain) | (1 << lineKind.plainLong);

/**
 * Reads the lines of a chunk, at most `most`, from `bytes[from…to]`, with an LF at `to` (see `textBytes`), into `memory`.
 * null: no line is left, or the rest is less than a chunk and `behind` it comes more.
 */
export function scanLines(
  bytes: Uint8Array,
  { from, to, behind, most }: Stretch,
  memory: LineMemory,
): ScannedLines | null {
  memory.makeRoom();
  const { starts, kinds, used, totals } = memory;
  let at = from;
  let count = 0;
  let kindsMet = 0;
  let isLast = false;
  scanner.totals = totals;
  scanner.clear();
  totals.summed = memory.incremental;
  while (count < most && at - from < charactersPerChunk && !(at === to && behind === 'chunk')) {
    if (!totals.summed) {
      const noted = { starts, kinds, at: used + count, base: from };
      const stretch = {
        from: at,
        to,
        line: count,
        mostLines: most - count,
        lastStart: from + charactersPerChunk,
      };
      quick.read(bytes, stretch, noted, totals);
      count += quick.count;
      kindsMet |= quick.kindsMet;
      at = quick.end;
      if ((kindsMet & ~plainKinds) === 0) quick.settle(bytes, totals);
      if (quick.count > 0) continue;
    }
    const kind = scanner.scan(bytes, at, count);
    const { end } = scanner;
    isLast = end >= to;
    const next = isLast ? to : lineEnd(bytes, end, to);
    // A CR at the end may be half of a line ending.
    if (behind === 'more' && (isLast || (next === to && bytes[end] === carriageReturn))) return null;
    starts[used + count] = at - from;
    kinds[used + count] = kind;
    kindsMet |= 1 << kind;
    if (kind >= lineKind.other) memory.incremental = distanceAt(bytes, at, end) ?? memory.incremental;
    count++;
    at = next;
    if (isLast) break;
  }
  if (count === 0) return null;
  memory.used += count;
  return {
    count,
    starts,
    kinds,
    at: used,
    kindsMet,
    outsideAscii: scanner.outsideAscii,
    totals: (kindsMet & ~plainKinds) === 0 ? memory.takeTotals() : null,
    end: at,
    isLast,
  };
}

export interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly behind: Behind;
  readonly most: number;
}

function lineEnd(bytes: Uint8Array, content: number, to: number): number {
  const next = content + 1;
  return bytes[content] === carriageReturn && next < to && bytes[next] === lineFeed ? next + 1 : next;
}
