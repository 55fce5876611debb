import { code, isDigit, isLetter, isSign } from './charCodes.ts';
import type { Scanner } from './scanner.ts';
import type { BinaryOperator } from './tree.ts';

const operatorWords = ['MOD', 'AND', 'OR', 'XOR', 'EQ', 'NE', 'GT', 'GE', 'LT', 'LE'] as const;

export interface FoundOperator {
  readonly operator: BinaryOperator;
  readonly start: number;
  readonly end: number;
}

/** The operator at the scanner's place, if one stands there; does not move. */
export function findOperator(scanner: Scanner): FoundOperator | null {
  const unit = scanner.peek();
  const start = scanner.at;
  const at = (operator: BinaryOperator, end: number) => ({ operator, start, end });
  if (unit === code.plus) return at('+', start + 1);
  if (unit === code.minus) return at('-', start + 1);
  if (unit === code.slash) return at('/', start + 1);
  if (unit === code.star) {
    const power = scanner.match('**', start);
    return power > 0 ? at('**', power) : at('*', start + 1);
  }
  if (!isLetter(unit)) return null;
  for (const word of operatorWords) {
    const end = scanner.match(word, start);
    if (end > 0) return at(word, end);
  }
  return null;
}

/** Whether a value could begin at or after `from`: tells an operator from what merely looks like one. */
export function valueMayBegin(scanner: Scanner, from: number): boolean {
  const unit = scanner.look(from);
  if (isDigit(unit) || isSign(unit)) return true;
  if (unit === code.point || unit === code.hash || unit === code.openBracket) return true;
  return isLetter(unit) && scanner.dialect.functions.some((name) => scanner.match(`${name}[`, from) > 0);
}
