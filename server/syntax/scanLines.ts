import { code } from './charCodes.ts';
import { lineKind } from './lineClass.ts';
import { LineScanner } from './lineScanner.ts';
import { PlainTotals } from './plainTotals.ts';

/** A chunk has this many lines when a text is cut; edits let it grow to `mostLines`, so that they seldom split one. */
export const linesPerChunk = 256;
export const mostLines = 320;
const charactersPerChunk = 65_536;

/** What stands behind the bytes: more of the text, a chunk of its own, nothing. */
export type Behind = 'more' | 'chunk' | 'nothing';

/** The lines of a chunk. */
export interface ScannedLines {
  /** Offset of each line from the first. */
  readonly starts: Uint32Array;
  /** Class of each line, see `lineKind`. */
  readonly kinds: Uint8Array;
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

const scanner = new LineScanner();
const starts = new Uint32Array(mostLines);
const kinds = new Uint8Array(mostLines);
const plainKinds = (1 << lineKind.blank) | (1 << lineKind.plain) | (1 << lineKind.plainLong);

/**
 * Reads the lines of a chunk, at most `most`, from `bytes[from…to]`, with an LF at `to` (see `textBytes`). null: no line
 * is left, or the rest is less than a chunk and `behind` it comes more.
 */
export function scanLines(
  bytes: Uint8Array,
  from: number,
  to: number,
  behind: Behind,
  most: number,
): ScannedLines | null {
  let at = from;
  let count = 0;
  let kindsMet = 0;
  let isLast = false;
  scanner.clear();
  while (count < most && at - from < charactersPerChunk && !(at === to && behind === 'chunk')) {
    const kind = scanner.scan(bytes, at, count);
    const { end } = scanner;
    isLast = end >= to;
    const next = isLast ? to : lineEnd(bytes, end, to);
    // A CR at the end may be half of a line ending.
    if (behind === 'more' && (isLast || (next === to && bytes[end] === code.carriageReturn))) return null;
    starts[count] = at - from;
    kinds[count] = kind;
    kindsMet |= 1 << kind;
    count++;
    at = next;
    if (isLast) break;
  }
  if (count === 0) return null;
  return {
    starts: starts.slice(0, count),
    kinds: kinds.slice(0, count),
    kindsMet,
    outsideAscii: scanner.outsideAscii,
    totals: (kindsMet & ~plainKinds) === 0 ? takeTotals() : null,
    end: at,
    isLast,
  };
}

function lineEnd(bytes: Uint8Array, content: number, to: number): number {
  const next = content + 1;
  return bytes[content] === code.carriageReturn && next < to && bytes[next] === code.lineFeed
    ? next + 1
    : next;
}

/** The scanner goes on with new ones. */
function takeTotals(): PlainTotals {
  const { totals } = scanner;
  scanner.totals = new PlainTotals();
  return totals;
}
