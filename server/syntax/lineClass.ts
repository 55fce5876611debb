import { code, isBlank, isDigit } from './charCodes.ts';
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

/** One pass; every character is read once, which is what the time for a million lines hangs on. */
function isPlain(text: string, from: number, to: number, lineNumberDigits: number | null): boolean {
  let seen = 0;
  let motion = -1;
  let at = from;
  let unit = text.charCodeAt(at);
  while (at < to) {
    const mask = letterMask(unit);
    if (mask === 0 || mask & seen) return false;
    do unit = text.charCodeAt(++at);
    while (isBlank(unit) && at < to);
    const start = at;
    const sign = unit;
    if (sign === code.minus || sign === code.plus) unit = text.charCodeAt(++at);
    let digits = 0;
    let points = 0;
    for (; at < to; unit = text.charCodeAt(++at)) {
      if (isDigit(unit)) digits++;
      else if (unit === code.point) points++;
      else break;
    }
    if (digits === 0 || points > 1) return false;
    if (mask & plainLetters) {
      if (mask & notNegative && sign === code.minus) return false;
      if (mask === gBit) {
        motion = motionCode(text, start, at);
        if (motion < 0) return false;
      }
    } else if (mask !== nBit || seen !== 0 || at - start !== digits) return false;
    else if (lineNumberDigits !== null && digits > lineNumberDigits) return false;
    seen |= mask;
    if (at >= to || !isBlank(unit)) continue;
    do unit = text.charCodeAt(++at);
    while (isBlank(unit) && at < to);
    // Digits that go on behind a blank make one number: left to the parser.
    if (at < to && letterMask(unit) === 0) return false;
  }
  const centre = (seen & centreLetters) !== 0;
  return motion < 0 || centre === motion > 1;
}

/** Bit of a letter in either case, 0 for anything else. */
function letterMask(unit: number): number {
  const index = (unit | 0x20) - 0x61;
  return index >= 0 && index < 26 ? 1 << index : 0;
}

/** 0 to 3 for `0` `1` `02` …; -1 for another number. */
function motionCode(text: string, start: number, end: number): number {
  const last = text.charCodeAt(end - 1) - 0x30;
  const short = end - start === 1 || (end - start === 2 && text.charCodeAt(start) === 0x30);
  return short && last >= 0 && last <= 3 ? last : -1;
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
