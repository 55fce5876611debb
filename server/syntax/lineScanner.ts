import { code } from './charCodes.ts';
import { imageOfMark, kindOfOther, lineKind, longestPlainLine, shortLineNumber } from './lineClass.ts';
import { longNumber, powers, quickDigits } from './literalBytes.ts';
import { letterBit, losses, PlainTotals, sums } from './plainTotals.ts';
import { quietCommentEnd } from './quietComment.ts';

const bitsOf = (letters: string) => [...letters].reduce((mask, letter) => mask | letterBit(letter), 0);

const nBit = letterBit('N');
const gBit = letterBit('G');
const fBit = letterBit('F');
const rBit = letterBit('R');
const notNegative = bitsOf('FS');
const centreWords = bitsOf('IJK');
const arcEnds = bitsOf('XYZ');
const centreLetters = bitsOf('IJKR');
const summedLetters = bitsOf('XYZABCUVW');

/** By byte the bit of a letter, in either case, that a plain line may have; 0 for all else. */
const plainBits = new Int32Array(256);
for (const letter of 'GXYZABCUVWIJKRFSN') {
  plainBits[letter.charCodeAt(0)] = letterBit(letter);
  plainBits[letter.charCodeAt(0) | 0x20] = letterBit(letter);
}

// Taken out of their objects: an access that the compiler first meets late in a text makes it compile the loop anew.
const { space, tab, minus, plus, point, lineFeed, carriageReturn, openParenthesis, semicolon } = code;
const { blank, plain, plainLong } = lineKind;

/**
 * Reads lines from bytes, one byte a character, into the same memory: what the time for a million lines hangs on, so
 * every byte is read once, and its number is made on the way.
 */
export class LineScanner {
  /** Where the content of the line read last ends: at LF or CR. */
  end = 0;
  /** Whether a byte above 0x7f was met since `clear`. */
  outsideAscii = false;
  /** Of the plain lines since `clear`; mean nothing where another line was met. */
  totals = new PlainTotals();

  clear(): void {
    this.outsideAscii = false;
    this.totals.clear();
  }

  /**
   * The class of the line (see `lineKind`) that begins at `from`, the `line`th since `clear`. Somewhere behind it an LF
   * or CR must stand. Values equal those that `parseBlock` gives.
   */
  scan(bytes: Uint8Array, from: number, line: number): number {
    const kind = this.plain(bytes, from, line);
    return kind >= 0 ? kind : this.other(bytes, from, ~kind);
  }

  /** The class of a plain or blank line; of another the complement of where it shows, the characters before being ASCII. */
  private plain(bytes: Uint8Array, from: number, line: number): number {
    const { values } = this.totals;
    let at = from;
    let seen = 0;
    let motion = -1;
    let commented = false;
    let kind: number = plain;
    let unit = bytes[at] as number;
    if (unit === imageOfMark) {
      this.outsideAscii = true;
      unit = bytes[++at] as number;
    }
    for (;;) {
      const bit = plainBits[unit] as number;
      if (bit === 0) {
        if (unit === space || unit === tab) at++;
        else if (unit === openParenthesis || unit === semicolon) {
          const behind = this.comment(bytes, at);
          if (behind < 0) return ~at;
          at = behind;
          commented = true;
        } else break;
        unit = bytes[at] as number;
        continue;
      }
      if (bit & seen) return ~at;
      const letter = (unit & 31) - 1;
      const wordStart = at;
      do unit = bytes[++at] as number;
      while (unit === space || unit === tab);
      const start = at;
      let sign = 0;
      if (unit === minus || unit === plus) {
        sign = unit;
        unit = bytes[++at] as number;
      }
      const firstDigit = at;
      let whole = 0;
      while (unit >= 0x30 && unit <= 0x39) {
        whole = (Math.imul(whole, 10) + unit - 0x30) | 0;
        unit = bytes[++at] as number;
      }
      let digits = at - firstDigit;
      let places = 0;
      if (unit === point) {
        if (bit === gBit || bit === nBit) return ~at;
        unit = bytes[++at] as number;
        const firstPlace = at;
        while (unit >= 0x30 && unit <= 0x39) {
          whole = (Math.imul(whole, 10) + unit - 0x30) | 0;
          unit = bytes[++at] as number;
        }
        places = at - firstPlace;
        digits += places;
      }
      if (digits === 0) return ~at;
      let value =
        digits <= quickDigits ? whole / (powers[places] as number) : longNumber(bytes, firstDigit, at);
      if (sign === minus) value = -value;
      if (bit & summedLetters) {
        const sum = values[sums + letter] as number;
        const rounded = sum + value;
        const part = rounded - sum;
        const lost = sum - (rounded - part) + (value - part);
        values[losses + letter] = (values[losses + letter] as number) + lost;
        values[sums + letter] = rounded;
      } else if (bit === gBit) {
        motion = value;
        if (at - start > 2 || motion > 3 || (at - start === 2 && bytes[start] !== 0x30)) return ~at;
      } else if (bit === nBit) {
        if (seen !== 0 || sign !== 0 || commented) return ~at;
        if (digits > shortLineNumber) kind = plainLong;
      } else if (bit === rBit) {
        if (value === 0) return ~at;
      } else if (bit & notNegative) {
        if (sign === minus) return ~at;
        if (bit === fBit) this.totals.noteFeed(line, wordStart - from, at - from);
      }
      values[letter] = value;
      seen |= bit;
    }
    if (unit !== lineFeed && unit !== carriageReturn) return ~at;
    if (seen & rBit && (seen & centreWords || !(seen & arcEnds))) return ~at;
    if (motion >= 0 && ((seen & centreLetters) !== 0) !== motion > 1) return ~at;
    if (seen === 0) {
      if (commented) return ~at;
      kind = blank;
    } else if (at - from > longestPlainLine) return ~at;
    this.end = at;
    this.totals.letters |= seen;
    return kind;
  }

  /** The end of a comment that nothing reads; -1 for another. */
  private comment(bytes: Uint8Array, from: number): number {
    const end = quietCommentEnd(bytes, from);
    for (let at = from; at < end; at++) if ((bytes[at] as number) > 0x7f) this.outsideAscii = true;
    return end;
  }

  /** A line that is not plain, its characters before `at` being ASCII. */
  private other(bytes: Uint8Array, from: number, at: number): number {
    let end = at;
    let all = 0;
    for (;;) {
      const unit = bytes[end] as number;
      if (unit === lineFeed || unit === carriageReturn) break;
      all |= unit;
      end++;
    }
    if (all > 0x7f) this.outsideAscii = true;
    this.end = end;
    return kindOfOther(bytes, from, end);
  }
}
