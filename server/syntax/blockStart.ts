import { code, isDigit, isSign } from './charCodes.ts';
import { digitsAt } from './numbers.ts';
import type { Scanner } from './scanner.ts';
import type { Block } from './tree.ts';

type Start = Pick<Block, 'blockDelete' | 'lineNumber'>;

/** Block delete and N number, in the order of NISTIR 6556 3.3; the macro dialect also takes the slash second. */
export function readBlockStart(scanner: Scanner): Start {
  let blockDelete = readBlockDelete(scanner);
  const lineNumber = readLineNumber(scanner);
  if (lineNumber && !blockDelete && scanner.dialect.blockDeleteAnywhere)
    blockDelete = readBlockDelete(scanner);
  return { ...(blockDelete && { blockDelete }), ...(lineNumber && { lineNumber }) };
}

/** `/` or `/2`; undefined, without moving, where none stands. */
export function readBlockDelete(scanner: Scanner): NonNullable<Block['blockDelete']> | undefined {
  if (scanner.peek() !== code.slash) return undefined;
  const start = scanner.at;
  scanner.at++;
  if (!isDigit(scanner.peek())) {
    scanner.at = start + 1;
    return { level: null, start, end: start + 1 };
  }
  const digit = scanner.at;
  const end = digit + 1;
  scanner.at = end;
  if (!scanner.dialect.blockDeleteAnywhere) {
    scanner.fault('unexpected-character', { start: digit, end }, scanner.text.charAt(digit));
  }
  return { level: Number(scanner.text.charAt(digit)), start, end };
}

/** `N10`: NISTIR 6556 3.3.1 allows one to five digits and no sign. */
function readLineNumber(scanner: Scanner): Block['lineNumber'] {
  const unit = scanner.peek();
  if (unit !== 0x4e && unit !== 0x6e) return undefined;
  const start = scanner.at;
  const { digits, end } = digitsAt(scanner, start + 1);
  scanner.at = end;
  const most = scanner.dialect.lineNumberDigits;
  const odd = oddEnd(scanner, end);
  if (odd > end || (most !== null && (digits.length === 0 || digits.length > most))) {
    scanner.fault('bad-line-number', { start, end: Math.max(odd, end) }, scanner.text.slice(start, odd));
    scanner.at = odd;
  }
  return { value: digits === '' ? null : Number(digits), start, end: scanner.at };
}

/** Where a sign or a decimal point makes the number none, behind it; else `end`. */
function oddEnd(scanner: Scanner, end: number): number {
  let at = scanner.skip(end);
  const unit = scanner.text.charCodeAt(at);
  if (at >= scanner.end || (unit !== code.point && !isSign(unit))) return end;
  while (at < scanner.end && /[-+.\d]/.test(scanner.text.charAt(at))) at++;
  return at;
}
