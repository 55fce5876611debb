import type { BinaryOperator, FunctionName } from '../syntax/tree.ts';

export interface FunctionMeaning {
  /** How it is written, each argument a word of its own. */
  readonly form: string;
  readonly arguments: readonly string[];
  readonly title: string;
}

/** NISTIR 6556, 3.3.2.4 and table 9, and what the trade adds (common practice, no source). Angles are in degrees. */
export const functionMeanings: Readonly<Record<FunctionName, FunctionMeaning>> = {
  ABS: one('ABS', 'value', 'without its sign'),
  ACOS: one('ACOS', 'cosine', 'the angle with this cosine, degrees'),
  ASIN: one('ASIN', 'sine', 'the angle with this sine, degrees'),
  ATAN: {
    form: 'ATAN[y]/[x]',
    arguments: ['y', 'x'],
    title: 'the angle of the direction (x, y) from the X axis, degrees',
  },
  COS: one('COS', 'degrees', 'cosine'),
  EXP: one('EXP', 'value', 'e to this power'),
  FIX: one('FIX', 'value', 'the next whole number below'),
  FUP: one('FUP', 'value', 'the next whole number above'),
  LN: one('LN', 'value', 'natural logarithm'),
  ROUND: one('ROUND', 'value', 'the nearest whole number'),
  SIN: one('SIN', 'degrees', 'sine'),
  SQRT: one('SQRT', 'value', 'square root'),
  TAN: one('TAN', 'degrees', 'tangent'),
  EXISTS: one('EXISTS', '#<name>', '1 where the named parameter has been set, else 0'),
  BIN: one('BIN', 'value', 'from decimal digits coded in four bits each to a number'),
  BCD: one('BCD', 'value', 'from a number to decimal digits coded in four bits each'),
  POW: { form: 'POW[base,power]', arguments: ['base', 'power'], title: 'base to this power' },
};

function one(name: string, argument: string, title: string): FunctionMeaning {
  return { form: `${name}[${argument}]`, arguments: [argument], title };
}

export const operatorMeanings: Readonly<Record<BinaryOperator, string>> = {
  '**': 'left to the power of right',
  '*': 'left times right',
  '/': 'left divided by right',
  MOD: 'what is left over of left divided by right',
  '+': 'left plus right',
  '-': 'left minus right',
  AND: 'of two conditions: 1 where both hold, else 0',
  OR: 'of two conditions: 1 where at least one holds, else 0',
  XOR: 'of two conditions: 1 where exactly one holds, else 0',
  EQ: '1 where both are equal, else 0',
  NE: '1 where they differ, else 0',
  GT: '1 where left is greater than right, else 0',
  GE: '1 where left is greater than right or equal, else 0',
  LT: '1 where left is less than right, else 0',
  LE: '1 where left is less than right or equal, else 0',
};
