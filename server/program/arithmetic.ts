import type { DialectName } from '../syntax/dialect.ts';
import type { BinaryOperator, FunctionName } from '../syntax/tree.ts';
import { choices } from './choices.ts';

/** Why an operation on numbers has no result. */
export type ArithmeticFault =
  | 'division-by-zero'
  | 'root-of-negative'
  | 'logarithm-of-nonpositive'
  | 'inverse-out-of-range'
  | 'negative-base'
  | 'not-finite';

const degrees = 180 / Math.PI;

/**
 * A binary operation on plain numbers (NISTIR 6556, 3.3.2.3): logicals take any number, 0 is false, and give 0 or 1.
 * Where the report is silent the dialect chooses (`choices.ts`); a negative base with a broken exponent is an error, as in
 * the report's reference source.
 */
export function binary(
  operator: BinaryOperator,
  a: number,
  b: number,
  dialect: DialectName,
): number | ArithmeticFault {
  switch (operator) {
    case '+':
      return a + b;
    case '-':
      return a - b;
    case '*':
      return a * b;
    case '/':
      return b === 0 ? 'division-by-zero' : a / b;
    case 'MOD':
      return modulus(a, b, dialect);
    case '**':
      if (a < 0 && !Number.isInteger(b)) return 'negative-base';
      return a === 0 && b < 0 ? 'division-by-zero' : finite(a ** b);
    case 'AND':
    case 'OR':
    case 'XOR':
      return logical(operator, a, b, dialect);
    default:
      return compare(operator, a, b) ? 1 : 0;
  }
}

/** A function of one number, or ATAN and POW of two (NISTIR 6556, 3.3.2.4): angles in degrees, FIX down, FUP up. */
export function call(
  name: FunctionName,
  x: number,
  y: number | undefined,
  dialect: DialectName,
): number | ArithmeticFault {
  switch (name) {
    case 'ABS':
      return Math.abs(x);
    case 'ACOS':
      return Math.abs(x) > 1 ? 'inverse-out-of-range' : Math.acos(x) * degrees;
    case 'ASIN':
      return Math.abs(x) > 1 ? 'inverse-out-of-range' : Math.asin(x) * degrees;
    case 'ATAN':
      return y === undefined ? Math.atan(x) * degrees : Math.atan2(x, y) * degrees;
    case 'COS':
      return Math.cos(x / degrees);
    case 'EXP':
      return finite(Math.exp(x));
    case 'FIX':
      return choices[dialect].fixRounds === 'down' ? Math.floor(x) : Math.trunc(x);
    case 'FUP':
      return choices[dialect].fixRounds === 'down' ? Math.ceil(x) : Math.sign(x) * Math.ceil(Math.abs(x));
    case 'LN':
      return x <= 0 ? 'logarithm-of-nonpositive' : Math.log(x);
    case 'ROUND':
      return Math.sign(x) * Math.round(Math.abs(x));
    case 'SIN':
      return Math.sin(x / degrees);
    case 'SQRT':
      return x < 0 ? 'root-of-negative' : Math.sqrt(x);
    case 'TAN':
      return finite(Math.tan(x / degrees));
    case 'POW':
      return y === undefined ? 'not-finite' : binary('**', x, y, dialect);
    case 'BIN':
      return fromDigits(x);
    case 'BCD':
      return toDigits(x);
    case 'EXISTS':
      return 1;
  }
}

function finite(x: number): number | ArithmeticFault {
  return Number.isFinite(x) ? x : 'not-finite';
}

function modulus(a: number, b: number, dialect: DialectName): number | ArithmeticFault {
  if (b === 0) return 'division-by-zero';
  const remainder = a % b;
  return choices[dialect].modSign === 'never-negative' && remainder < 0 ? remainder + Math.abs(b) : remainder;
}

function logical(operator: 'AND' | 'OR' | 'XOR', a: number, b: number, dialect: DialectName): number {
  if (choices[dialect].logicals === 'bits' && Number.isInteger(a) && Number.isInteger(b)) {
    return operator === 'AND' ? a & b : operator === 'OR' ? a | b : a ^ b;
  }
  const left = a !== 0;
  const right = b !== 0;
  const result = operator === 'AND' ? left && right : operator === 'OR' ? left || right : left !== right;
  return result ? 1 : 0;
}

function compare(operator: 'EQ' | 'NE' | 'GT' | 'GE' | 'LT' | 'LE', a: number, b: number): boolean {
  switch (operator) {
    case 'EQ':
      return a === b;
    case 'NE':
      return a !== b;
    case 'GT':
      return a > b;
    case 'GE':
      return a >= b;
    case 'LT':
      return a < b;
    case 'LE':
      return a <= b;
  }
}

function fromDigits(x: number): number {
  const whole = Math.trunc(Math.abs(x));
  let value = 0;
  for (let place = 0; place < 8; place++) value += (Math.floor(whole / 16 ** place) % 16) * 10 ** place;
  return value;
}

function toDigits(x: number): number {
  const whole = Math.trunc(Math.abs(x));
  let value = 0;
  for (let place = 0; place < 8; place++) value += (Math.floor(whole / 10 ** place) % 10) * 16 ** place;
  return value;
}
