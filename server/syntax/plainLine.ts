import { code, isBlank, isDigit } from './charCodes.ts';

/**
 * The words of one plain line, read over and over into the same memory. `values[0]` is A, `values[25]` Z; bit n of
 * `present` says whether the line has that letter. Values of letters not present are left from earlier lines.
 */
export interface PlainWords {
  readonly values: Float64Array;
  present: number;
}

export function plainWords(): PlainWords {
  return { values: new Float64Array(26), present: 0 };
}

/** Bit of a letter in `present`. */
export function letterBit(letter: string): number {
  return 1 << (letter.charCodeAt(0) - 65);
}

/** Powers of ten that a double holds exactly, so that one division rounds right. */
const powers = Float64Array.from({ length: 23 }, (_, index) => Number(`1e${index}`));

/**
 * Reads the line `text.slice(from, to)`, which must be of class 1 (see `lineClass.ts`), without making objects. With
 * `chunk` from `Source.chunkAt`, `from` is `chunk.lineStart(line)` and `to` is `chunk.contentEnd(line)`. G, N and all
 * others come as numbers; the values equal those that `parseBlock` gives.
 */
export function scanPlainLine(text: string, from: number, to: number, into: PlainWords): void {
  let present = 0;
  let at = from;
  if (text.charCodeAt(at) === code.byteOrderMark) at++;
  for (;;) {
    while (at < to && isBlank(text.charCodeAt(at))) at++;
    if (at >= to) break;
    const letter = (text.charCodeAt(at++) | 0x20) - 0x61;
    present |= 1 << letter;
    while (at < to && isBlank(text.charCodeAt(at))) at++;
    const start = at;
    let unit = text.charCodeAt(at);
    const negative = unit === code.minus;
    if (negative || unit === code.plus) at++;
    let whole = 0;
    let digits = 0;
    let places = -1;
    for (; at < to; at++) {
      unit = text.charCodeAt(at);
      if (isDigit(unit)) {
        whole = whole * 10 + (unit - 0x30);
        digits++;
        if (places >= 0) places++;
      } else if (unit === code.point) places = 0;
      else break;
    }
    const value =
      digits <= 15
        ? whole / (powers[Math.max(places, 0)] as number)
        : Math.abs(Number(text.slice(start, at)));
    into.values[letter] = negative ? -value : value;
  }
  into.present = present;
}
