import type { Expression, Operator } from './expression.ts';

/** How a dialect writes values. */
export interface Notation {
  /** Around operators. */
  readonly blank: string;
  length(mm: number): string;
  number(value: number): string;
  variable(name: string): string;
  readonly tipDiameter: string;
}

/** As it stands inside brackets or behind `=` where the dialect needs none. */
export function printOpen(expression: Expression, notation: Notation): string {
  return print(expression, notation, 0);
}

/** As it stands behind a letter: in brackets unless it is one number, parameter or function. */
export function printValue(expression: Expression, notation: Notation): string {
  const text = printOpen(expression, notation);
  return expression.kind === 'binary' ? `[${text}]` : text;
}

const levels: Readonly<Record<Operator, number>> = { '+': 1, '-': 1, '*': 2, '/': 2 };

function print(expression: Expression, notation: Notation, needed: number): string {
  switch (expression.kind) {
    case 'number':
      return notation.number(expression.value);
    case 'length':
      return notation.length(expression.mm);
    case 'variable':
      return notation.variable(expression.name);
    case 'latched':
      return `#${5061 + 'xyz'.indexOf(expression.axis)}`;
    case 'tip-diameter':
      return notation.tipDiameter;
    case 'call': {
      const argument = `${expression.name}[${printOpen(expression.argument, notation)}]`;
      return expression.name === 'ATAN' ? `${argument}/[${notation.number(1)}]` : argument;
    }
    case 'binary': {
      const level = levels[expression.operator];
      const left = print(expression.left, notation, level);
      const right = print(expression.right, notation, level + 1);
      const text = `${left}${notation.blank}${expression.operator}${notation.blank}${right}`;
      return level < needed ? `[${text}]` : text;
    }
  }
}
