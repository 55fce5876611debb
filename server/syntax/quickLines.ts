import { code } from './charCodes.ts';
import { lineKind, longestPlainLine, shortLineNumber } from './lineClass.ts';
import { numberAt } from './literalBytes.ts';
import { letterBit, PlainTotals } from './plainTotals.ts';

const bitsOf = (letters: string) => [...letters].reduce((mask, letter) => mask | letterBit(letter), 0);

const signed = bitsOf('XYZABCUVWIJK');
const centreWords = bitsOf('IJK');
const gBit = letterBit('G');
const nBit = letterBit('N');
const fBit = letterBit('F');

/** By byte the bit of a letter, in either case, that such a line may have; 0 for all else. */
const quickBits = new Int32Array(256);
for (const letter of 'GXYZABCUVWIJKFSN') {
  quickBits[letter.charCodeAt(0)] = letterBit(letter);
  quickBits[letter.charCodeAt(0) | 0x20] = letterBit(letter);
}

const { space, tab, minus, plus, point, lineFeed, carriageReturn } = code;
const { blank, plain } = lineKind;

export interface QuickStretch {
  /** Where the first line begins. */
  readonly from: number;
  /** Lines that end at it or behind it are left alone. */
  readonly to: number;
  /** Their number since the totals were cleared begins with it. */
  readonly line: number;
  readonly mostLines: number;
  /** No line is begun there or behind. */
  readonly lastStart: number;
}

/** Where lines are written down, see `ScannedLines`. */
export interface LinesNoted {
  readonly starts: Uint32Array;
  readonly kinds: Uint8Array;
  readonly at: number;
  /** What the starts are counted from. */
  readonly base: number;
}

/**
 * Reads the plain and blank lines that a CAM system writes, up to the first that has anything else in it. That one is for
 * `LineScanner`, which reads all there are; here most are read in half the time, as no number is made but the last of each
 * letter, and sums are left to who needs them.
 */
export class QuickLines {
  /** Behind the last line that was read. */
  end = 0;
  count = 0;
  /** Bit n: a line of class n was read. */
  kindsMet = 0;
  /** Letters of the lines read, as in `PlainTotals.letters`. */
  #letters = 0;
  /** By letter (1 is A), where its last number begins. */
  readonly #numbers = new Int32Array(32);

  /** Notes each line, and the last F word in `totals`. */
  read(bytes: Uint8Array, stretch: QuickStretch, noted: LinesNoted, totals: PlainTotals): void {
    const { from, to, mostLines, lastStart } = stretch;
    const { starts, kinds, base } = noted;
    const numbers = this.#numbers;
    let at = from;
    let start = from;
    let count = 0;
    let letters = 0;
    let kindsMet = 0;
    lines: while (count < mostLines && start < lastStart) {
      let seen = 0;
      let motion = -1;
      let unit = bytes[at] as number;
      for (;;) {
        const bit = quickBits[unit] as number;
        if ((bit & ~seen) === 0) {
          if (unit !== space && unit !== tab) break;
          unit = bytes[++at] as number;
          continue;
        }
        const wordStart = at;
        numbers[unit & 31] = ++at;
        unit = bytes[at] as number;
        if (unit === minus || unit === plus) unit = bytes[++at] as number;
        const digits = at;
        while ((unit - 0x30) >>> 0 < 10) unit = bytes[++at] as number;
        if (bit & signed) {
          if (unit === point) {
            do unit = bytes[++at] as number;
            while ((unit - 0x30) >>> 0 < 10);
            if (at - digits === 1) break lines;
          } else if (at === digits) break lines;
          seen |= bit;
          continue;
        }
        // What has no sign begins right behind its letter.
        let length = at - digits;
        if (digits !== wordStart + 1) break lines;
        if (bit === gBit) {
          motion = (bytes[at - 1] as number) - 0x30;
          if (motion > 3 || length > 2 || (length === 2 && bytes[digits] !== 0x30)) break lines;
        } else if (bit === nBit) {
          if (seen !== 0 || length > shortLineNumber) break lines;
        } else {
          if (unit === point) {
            do unit = bytes[++at] as number;
            while ((unit - 0x30) >>> 0 < 10);
            length = at - digits - 1;
          }
          if (bit === fBit) totals.noteFeed(stretch.line + count, wordStart - start, at - start);
        }
        if (length === 0) break lines;
        seen |= bit;
      }
      if (unit === carriageReturn && bytes[at + 1] === lineFeed) at++;
      else if (unit !== lineFeed) break;
      if (at >= to || at - start > longestPlainLine) break;
      if (motion >= 0 && ((seen & centreWords) !== 0) !== motion > 1) break;
      const kind = seen === 0 ? blank : plain;
      starts[noted.at + count] = start - base;
      kinds[noted.at + count] = kind;
      kindsMet |= 1 << kind;
      letters |= seen;
      count++;
      start = ++at;
    }
    this.end = start;
    this.count = count;
    this.kindsMet = kindsMet;
    this.#letters = letters;
  }

  /** Takes the last value of each letter that was read into `totals`, but no sums. */
  settle(bytes: Uint8Array, totals: PlainTotals): void {
    totals.letters |= this.#letters;
    for (let rest = this.#letters; rest !== 0; rest &= rest - 1) {
      const letter = 31 - Math.clz32(rest & -rest);
      totals.values[letter] = numberAt(bytes, this.#numbers[letter + 1] as number);
    }
  }
}

/** Lines of every kind, right ones and those that are left to others. */
const everyKind = [
  'N10 G1 X-1.5 Y+2. Z.5 F300\r\n\tx1 S9000 F2.5\n \nG02 X1 I1 J-1',
  'G38.2 Z-1',
  'G1 X1 X2',
  'G1 X',
  'X-.',
  'G91',
  'G123',
  'N123456',
  'X1 N1',
  'F-1',
  'F',
  'T1 M6',
  'G1 I1',
  'X1\r',
  '%',
].map((line) => new TextEncoder().encode(`${line}\n`));
const rounds = 24;

/**
 * Reads lines of every kind before a long text. V8 compiles a loop by what it has seen of it, and what it first meets late
 * in a text makes it throw the machine code away.
 */
export function meetEveryKind(quick: QuickLines): void {
  const noted = { starts: new Uint32Array(9), kinds: new Uint8Array(9), at: 0, base: 0 };
  const totals = new PlainTotals();
  for (let round = 0; round < rounds; round++) {
    for (const bytes of everyKind) {
      const stretch = { from: 0, to: bytes.length, line: 0, mostLines: 9, lastStart: bytes.length };
      quick.read(bytes, stretch, noted, totals);
      quick.settle(bytes, totals);
    }
  }
}
