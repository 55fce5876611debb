import { code, isBlank, isDigit, isLetter } from './charCodes.ts';
import type { Dialect } from './dialect.ts';

/**
 * What the class byte of a line says. Blank and plain lines need no tree; of the others some are told apart because
 * somebody looks for them in a million lines.
 */
export const lineKind = { blank: 0, plain: 1, other: 2, percent: 3, touch: 4 } as const;

/** Bit of a letter in a mask; A is bit 0. */
const bit = (letter: string) => 1 << (letter.charCodeAt(0) - 65);
const maskOf = (letters: string) => [...letters].reduce((mask, letter) => mask | bit(letter), 0);

const plainLetters = maskOf('GXYZABCUVWIJKRFS');
const notNegative = maskOf('FS');
const centreLetters = maskOf('IJKR');
const nBit = bit('N');
const gBit = bit('G');

/**
 * The class of the line `text.slice(from, to)`. Plain: N first, at most one G word of G0 to G3 (`G00` too), words
 * X Y Z A B C U V W I J K R F S with literal numbers, none twice, I J K R not beside G0 or G1 and not missing beside
 * G2 or G3, F and S not negative: nothing that a check of one line could complain of.
 */
export function classifyLine(text: string, from: number, to: number, dialect: Dialect): number {
  let at = from;
  if (text.charCodeAt(at) === code.byteOrderMark) at++;
  while (at < to && isBlank(text.charCodeAt(at))) at++;
  if (at >= to) return lineKind.blank;
  if (text.charCodeAt(at) === code.percent) return lineKind.percent;
  if (isPlain(text, at, to, dialect.lineNumberDigits) && to - from <= (dialect.maximumLineLength ?? to)) {
    return lineKind.plain;
  }
  return hasTouchWord(text, at, to) ? lineKind.touch : lineKind.other;
}

function isPlain(text: string, from: number, to: number, lineNumberDigits: number | null): boolean {
  let seen = 0;
  let motion = -1;
  let at = from;
  while (at < to) {
    const unit = text.charCodeAt(at++);
    if (isBlank(unit)) continue;
    const letter = (unit | 0x20) - 0x61;
    if (letter < 0 || letter > 25 || unit > 0x7a) return false;
    const mask = 1 << letter;
    if (mask & seen) return false;
    while (at < to && isBlank(text.charCodeAt(at))) at++;
    const start = at;
    if (mask & plainLetters) {
      at = numberEnd(text, at, to);
      if (at < 0) return false;
      if (mask & notNegative && text.charCodeAt(start) === code.minus) return false;
      if (mask === gBit) {
        motion = motionCode(text, start, at);
        if (motion < 0) return false;
      }
    } else if (mask === nBit && seen === 0) {
      while (at < to && isDigit(text.charCodeAt(at))) at++;
      if (at === start || (lineNumberDigits !== null && at - start > lineNumberDigits)) return false;
    } else return false;
    // Digits that go on behind a blank make one number: left to the parser.
    const next = skipBlanks(text, at, to);
    if (next > at && next < to && !isLetter(text.charCodeAt(next))) return false;
    at = next;
    seen |= mask;
  }
  const centre = (seen & centreLetters) !== 0;
  return motion < 0 || centre === motion > 1;
}

/** Where the literal number at `at` ends; -1 where none stands there. */
function numberEnd(text: string, from: number, to: number): number {
  let at = from;
  const sign = text.charCodeAt(at);
  if (sign === code.minus || sign === code.plus) at++;
  const whole = at;
  while (at < to && isDigit(text.charCodeAt(at))) at++;
  let digits = at - whole;
  if (at < to && text.charCodeAt(at) === code.point) {
    const fraction = ++at;
    while (at < to && isDigit(text.charCodeAt(at))) at++;
    digits += at - fraction;
  }
  return digits > 0 ? at : -1;
}

/** 0 to 3 for `0` `1` `02` …; -1 for another number. */
function motionCode(text: string, start: number, end: number): number {
  const last = text.charCodeAt(end - 1) - 0x30;
  const short = end - start === 1 || (end - start === 2 && text.charCodeAt(start) === 0x30);
  return short && last >= 0 && last <= 3 ? last : -1;
}

function skipBlanks(text: string, from: number, to: number): number {
  let at = from;
  while (at < to && isBlank(text.charCodeAt(at))) at++;
  return at;
}

/** Whether a G38.x or G31 stands in the line, outside comments. */
function hasTouchWord(text: string, from: number, to: number): boolean {
  let comment = false;
  for (let at = from; at < to; at++) {
    const unit = text.charCodeAt(at);
    if (comment) comment = unit !== code.closeParenthesis;
    else if (unit === code.openParenthesis) comment = true;
    else if (unit === code.semicolon) return false;
    else if ((unit | 0x20) === 0x67 && isTouchNumber(text, at + 1, to)) return true;
  }
  return false;
}

function isTouchNumber(text: string, from: number, to: number): boolean {
  const written = text.slice(from, Math.min(to, from + 12)).replace(/[ \t]/g, '');
  return /^0*(38\.\d|31(?!\d))/.test(written);
}
