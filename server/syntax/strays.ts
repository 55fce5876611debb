import { code, isBlank, isDigit, isLetter, isSign } from './charCodes.ts';
import { readBracket } from './expressions.ts';
import { readNumber } from './numbers.ts';
import type { Scanner } from './scanner.ts';
import type { Fault, Stray } from './tree.ts';

/** Text where no item begins, as one stray with one fault; the scanner stands at it. */
export function readStray(scanner: Scanner): Stray {
  const start = scanner.at;
  const unit = scanner.text.charCodeAt(start);
  const before = scanner.faults.length;
  if (unit === code.openBracket) readBracket(scanner);
  else if (isDigit(unit) || isSign(unit) || unit === code.point) readNumber(scanner);
  else scanner.at = strayEnd(scanner, start);
  scanner.forgetFaults(before);
  const bracket = unit === code.openBracket || unit === code.closeBracket || unit === code.closeParenthesis;
  return stray(scanner, start, scanner.at, bracket ? 'stray-bracket' : 'unexpected-character');
}

/** Letters that are neither a word nor a keyword, such as prose: one stray for the run of them, one fault for the line. */
export function readStrayLetters(scanner: Scanner, from: number): Stray {
  let end = from;
  while (end < scanner.end && isLetter(scanner.text.charCodeAt(end))) end++;
  scanner.at = end;
  const letters = stray(scanner, from, end, 'unknown-keyword');
  scanner.quiet = true;
  return letters;
}

/** Everything up to the next comment as a stray, with a fault; for where a part of a line can't be made sense of. */
export function readRest(scanner: Scanner, from: number, reason: Fault['code'], detail?: string): Stray {
  let end = from;
  for (let at = from; at < scanner.end; at++) {
    const unit = scanner.text.charCodeAt(at);
    if (unit === code.openParenthesis || unit === code.semicolon) break;
    if (!isBlank(unit)) end = at + 1;
  }
  scanner.at = Math.max(end, from);
  return stray(scanner, from, scanner.at, reason, detail);
}

function stray(scanner: Scanner, start: number, end: number, reason: Fault['code'], detail?: string): Stray {
  scanner.fault(reason, { start, end }, detail ?? scanner.text.slice(start, end));
  return { kind: 'stray', start, end };
}

/** Up to a blank or to where something known may begin. */
function strayEnd(scanner: Scanner, start: number): number {
  let at = start + 1;
  for (; at < scanner.end; at++) {
    const unit = scanner.text.charCodeAt(at);
    if (isBlank(unit) || isLetter(unit) || unit === code.hash) break;
    if (unit === code.openParenthesis || unit === code.semicolon || unit === code.openBracket) break;
  }
  return at;
}
