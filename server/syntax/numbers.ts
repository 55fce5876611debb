import { code, isBlank, isDigit, isSign } from './charCodes.ts';
import type { Scanner } from './scanner.ts';
import type { Expression } from './tree.ts';

/**
 * A literal number at the scanner's place (a sign, a digit or a point stands there). NISTIR 6556 3.3.2.1: optional sign,
 * digits with at most one point, at least one digit, no exponent; blanks inside count for nothing (3.3).
 */
export function readNumber(scanner: Scanner): Expression {
  const start = scanner.at;
  while (isSign(scanner.peek())) scanner.at++;
  const end = Math.max(numberEnd(scanner, scanner.at), start + 1);
  const written = scanner.text.slice(start, end).replace(/[ \t]/g, '');
  scanner.at = end;
  const value = Number(written);
  if (Number.isFinite(value)) return { kind: 'number', value, start, end };
  scanner.fault('bad-number', { start, end }, written);
  return { kind: 'bad', start, end };
}

/** Digits from `from` on, blanks between them allowed; `digits` has the blanks out. */
export function digitsAt(scanner: Scanner, from: number): { readonly digits: string; readonly end: number } {
  let digits = '';
  let end = from;
  for (let at = scanner.skip(from); at < scanner.end; at = scanner.skip(at)) {
    let stop = at;
    while (stop < scanner.end && isDigit(scanner.text.charCodeAt(stop))) stop++;
    if (stop === at) break;
    digits += scanner.text.slice(at, stop);
    end = stop;
    at = stop;
  }
  return { digits, end };
}

/** Where digits and points end, blanks among them taken in, blanks behind them not. */
function numberEnd(scanner: Scanner, from: number): number {
  let end = from;
  for (let at = from; at < scanner.end; at++) {
    const unit = scanner.text.charCodeAt(at);
    if (isDigit(unit) || unit === code.point) end = at + 1;
    else if (!isBlank(unit)) break;
  }
  return end;
}
