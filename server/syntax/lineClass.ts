import { code } from './charCodes.ts';

/**
 * What the class byte of a line says. Blank and plain lines need no tree; of the others some are told apart because
 * somebody looks for them in a million lines. Plain: N first, at most one G word of G0 to G3 (`G00` too), words
 * X Y Z A B C U V W I J K R F S with literal numbers, none twice, I J K R not beside G0 or G1 and not missing beside
 * G2 or G3, R not 0, alone and beside X, Y or Z, F and S not negative, 256 characters at most, and comments that nothing
 * reads (`quietComment.ts`): nothing that a check of one line could complain of, but for `plainLong`, whose N number has
 * more digits than a dialect may take.
 */
export const lineKind = { blank: 0, plain: 1, plainLong: 2, other: 3, percent: 4, touch: 5 } as const;

/** Characters of a plain line, its ending left out. */
export const longestPlainLine = 256;

/** Digits of an N number in NISTIR 6556, 3.3.1; a plain line with more of them is `plainLong`. */
export const shortLineNumber = 5;

/** The class of the line `bytes[from…to]`, known to be neither blank nor plain. */
export function kindOfOther(bytes: Uint8Array, from: number, to: number): number {
  let at = from;
  while (at < to && isBlankOrMark(bytes[at] as number)) at++;
  if (bytes[at] === code.percent) return lineKind.percent;
  return hasTouchWord(bytes, at, to) ? lineKind.touch : lineKind.other;
}

function isBlankOrMark(byte: number): boolean {
  return byte === code.space || byte === code.tab || byte === imageOfMark;
}

/** What a byte-order mark becomes in the bytes that are scanned; see `textBytes.ts`. */
export const imageOfMark = 0xfe;

/** Whether a G38.x or G31 stands in the line, outside comments. */
function hasTouchWord(bytes: Uint8Array, from: number, to: number): boolean {
  let comment = false;
  for (let at = from; at < to; at++) {
    const unit = bytes[at] as number;
    if (comment) comment = unit !== code.closeParenthesis;
    else if (unit === code.openParenthesis) comment = true;
    else if (unit === code.semicolon) return false;
    else if ((unit | 0x20) === 0x67 && isTouchNumber(bytes, at + 1, to)) return true;
  }
  return false;
}

function isTouchNumber(bytes: Uint8Array, from: number, to: number): boolean {
  const written = String.fromCharCode(...bytes.subarray(from, Math.min(to, from + 12))).replace(/[ \t]/g, '');
  return /^0*(38\.\d|31(?!\d))/.test(written);
}

/** Whether the last G90 or G91 of a line, comments or not, is G91; null for none. */
export function distanceAt(bytes: Uint8Array, from: number, to: number): boolean | null {
  let incremental: boolean | null = null;
  for (let at = from; at + 2 < to; at++) {
    if (((bytes[at] as number) | 0x20) !== 0x67 || bytes[at + 1] !== 0x39) continue;
    const last = bytes[at + 2] as number;
    const behind = at + 3 < to ? (bytes[at + 3] as number) : code.space;
    if ((last === 0x30 || last === 0x31) && behind !== code.point && (behind - 0x30) >>> 0 >= 10)
      incremental = last === 0x31;
  }
  return incremental;
}
