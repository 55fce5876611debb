import type { StateView } from '../analysis/analysis.ts';
import { binary, call } from '../program/arithmetic.ts';
import type { DialectName } from '../syntax/dialect.ts';
import type { Expression, ParameterExpression } from '../syntax/tree.ts';

/** What an expression comes to before its block runs; null where that is not one number on every path. */
export function valueHere(e: Expression, view: StateView, dialect: DialectName): number | null {
  const of = (inner: Expression) => valueHere(inner, view, dialect);
  switch (e.kind) {
    case 'number':
      return e.value;
    case 'parameter':
      return parameterValue(e, view, of);
    case 'unary': {
      const value = of(e.operand);
      return value === null ? null : e.operator === '-' ? -value : value;
    }
    case 'binary': {
      const [left, right] = [of(e.left), of(e.right)];
      return left === null || right === null ? null : known(binary(e.operator, left, right, dialect));
    }
    case 'call': {
      const [x, y] = e.arguments.map(of);
      if (e.name === 'EXISTS' || x === null || x === undefined || y === null) return null;
      return known(call(e.name, x, y, dialect));
    }
    case 'bad':
      return null;
  }
}

function parameterValue(
  { index }: ParameterExpression,
  view: StateView,
  of: (e: Expression) => number | null,
): number | null {
  if ('name' in index) return view.parameter(`#<${index.name}>`);
  const number = 'number' in index ? index.number : of(index.expression);
  return number === null ? null : view.parameter(`#${Math.round(number)}`);
}

function known(result: number | string): number | null {
  return typeof result === 'number' && Number.isFinite(result) ? result : null;
}

/** At most 12 digits, none of them noise. */
export function shownValue(value: number): string {
  return String(Number(value.toPrecision(12))).replace('-', '−');
}
