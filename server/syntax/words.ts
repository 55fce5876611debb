import { code, isDigit, isLetter, isSign } from './charCodes.ts';
import type { Dialect } from './dialect.ts';
import { readOpenChain, readValue } from './expressions.ts';
import { valueMayBegin } from './operators.ts';
import type { Scanner } from './scanner.ts';
import { readStrayLetters } from './strays.ts';
import type { Expression, Stray, Word } from './tree.ts';

/** `@`, `^` and `:`, where the dialect has them in place of letters. */
export function isWordSign(unit: number, { letters }: Dialect): boolean {
  return (
    (unit === code.at || unit === code.caret || unit === code.colon) &&
    letters.includes(String.fromCharCode(unit))
  );
}

/** A letter with its value; the scanner stands at the letter. */
export function readWord(scanner: Scanner): Word | Stray {
  const start = scanner.at;
  const written = scanner.text.charAt(start).toUpperCase();
  const letter = written === ':' ? 'O' : written;
  scanner.at++;
  const value = readValue(scanner);
  if (value === null) return withoutValue(scanner, start, letter);
  if (!scanner.dialect.letters.includes(written)) {
    const reason = letter === 'N' ? 'misplaced-line-number' : 'bad-letter';
    scanner.fault(reason, { start, end: value.end }, letter);
  }
  const whole = closedValue(scanner, value);
  return { kind: 'word', letter, value: whole, start, end: whole.end };
}

/** `,R2` where the dialect has it; null, without moving, where no such word stands. */
export function readCommaWord(scanner: Scanner): Word | null {
  const start = scanner.at;
  const at = scanner.skip(start + 1);
  const letter = scanner.text.charAt(at).toUpperCase();
  if (at >= scanner.end || letter === '' || !scanner.dialect.commaLetters.includes(letter)) return null;
  scanner.at = at + 1;
  const value = readValue(scanner);
  if (value === null) {
    scanner.at = start;
    return null;
  }
  return { kind: 'word', letter: `,${letter}`, value, start, end: value.end };
}

/** The value itself; where an operator goes on behind it, the whole chain with a fault for the missing brackets. */
export function closedValue(scanner: Scanner, value: Expression): Expression {
  const whole = readOpenChain(scanner, value);
  if (whole !== value) {
    scanner.fault('missing-brackets', whole, scanner.text.slice(whole.start, whole.end));
  }
  return whole;
}

function withoutValue(scanner: Scanner, start: number, letter: string): Word | Stray {
  if (isProse(scanner, start)) return readStrayLetters(scanner, start);
  const end = start + 1;
  scanner.at = end;
  if (scanner.peek() === code.equals) return withEquals(scanner, start, letter);
  scanner.at = end;
  // What stands there instead of a value gets a fault of its own: one is enough.
  if (!isOdd(scanner.look(end), scanner.dialect)) scanner.fault('missing-value', { start, end }, letter);
  return { kind: 'word', letter, value: { kind: 'bad', start: end, end }, start, end };
}

/** Whether a stray begins with it. */
function isOdd(unit: number, dialect: Dialect): boolean {
  if (Number.isNaN(unit) || isLetter(unit) || isDigit(unit) || isSign(unit)) return false;
  return !beginners.includes(unit) && !isWordSign(unit, dialect);
}

/** Besides letters and what begins a number: what an item may begin with. */
const beginners: readonly number[] = [
  ...[code.hash, code.slash, code.comma, code.openParenthesis, code.semicolon],
  ...[code.openBracket, code.point],
];

/** Three letters or more together, or two that no value follows. */
function isProse(scanner: Scanner, start: number): boolean {
  const { text } = scanner;
  if (!isLetter(text.charCodeAt(start)) || !isLetter(text.charCodeAt(start + 1))) return false;
  return isLetter(text.charCodeAt(start + 2)) || !valueMayBegin(scanner, start + 2);
}

/** `X=5`: other languages write it so; one fault, and the value read all the same. */
function withEquals(scanner: Scanner, start: number, letter: string): Word {
  const equals = { start: scanner.at, end: scanner.at + 1 };
  scanner.fault('unexpected-character', equals, '=');
  scanner.at = equals.end;
  const value: Expression = readValue(scanner) ?? { kind: 'bad', start: equals.end, end: equals.end };
  scanner.at = value.end;
  return { kind: 'word', letter, value, start, end: value.end };
}
