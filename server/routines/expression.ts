/**
 * A value of the motion of a routine, in neither dialect: a length (kept in mm), a plain number, a named variable. It is
 * printed in both dialects, and evaluated and differentiated here for limits and expected errors: said once, used thrice.
 */
export type Expression =
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'length'; readonly mm: number }
  | { readonly kind: 'variable'; readonly name: string }
  /** Coordinate at which the last touch was latched. */
  | { readonly kind: 'latched'; readonly axis: 'x' | 'y' | 'z' }
  /** The effective diameter of the tip: a literal, or read from where the shop keeps it. */
  | { readonly kind: 'tip-diameter' }
  | {
      readonly kind: 'binary';
      readonly operator: Operator;
      readonly left: Expression;
      readonly right: Expression;
    }
  | { readonly kind: 'call'; readonly name: 'ABS' | 'SQRT' | 'ATAN'; readonly argument: Expression };

export type Operator = '+' | '-' | '*' | '/';

export const number = (value: number): Expression => ({ kind: 'number', value });
export const length = (mm: number): Expression => ({ kind: 'length', mm });
export const variable = (name: string): Expression => ({ kind: 'variable', name });
export const tipDiameter: Expression = { kind: 'tip-diameter' };
export const latched = (axis: 'x' | 'y' | 'z'): Expression => ({ kind: 'latched', axis });
export const absolute = (argument: Expression): Expression => ({ kind: 'call', name: 'ABS', argument });
export const squareRoot = (argument: Expression): Expression => ({ kind: 'call', name: 'SQRT', argument });
/** Degrees of the angle with this slope. */
export const angleOf = (argument: Expression): Expression => ({ kind: 'call', name: 'ATAN', argument });

/** Sums of lengths are worked out here, so that the printed program shows one number and not three. */
export function plus(left: Expression, right: Expression): Expression {
  if (isZero(right)) return left;
  if (isZero(left)) return right;
  if (right.kind === 'length') return plusLength(left, right.mm);
  if (right.kind === 'binary' && right.operator === '-' && isZero(right.left))
    return minus(left, right.right);
  return { kind: 'binary', operator: '+', left, right };
}

export function minus(left: Expression, right: Expression): Expression {
  if (isZero(right)) return left;
  const [from, to] = [offsetOf(right), offsetOf(left)];
  if (same(from.base, to.base)) return length(to.mm - from.mm);
  if (right.kind === 'length') return plusLength(left, -right.mm);
  return { kind: 'binary', operator: '-', left, right };
}

export function times(left: Expression, right: Expression): Expression {
  return { kind: 'binary', operator: '*', left, right };
}

export function over(left: Expression, right: Expression): Expression {
  return { kind: 'binary', operator: '/', left, right };
}

/** `whole` times a plain number. */
export function scaled(whole: Expression, factor: number): Expression {
  if (factor === 0) return length(0);
  if (factor === 1) return whole;
  if (whole.kind === 'length') return length(whole.mm * factor);
  // No number with a sign inside an expression: not every control reads one there.
  if (factor < 0)
    return whole.kind === 'binary' && whole.operator === '-'
      ? scaled(minus(whole.right, whole.left), -factor)
      : minus(length(0), scaled(whole, -factor));
  return times(whole, number(factor));
}

export function half(whole: Expression): Expression {
  return whole.kind === 'length' ? length(whole.mm / 2) : over(whole, number(2));
}

/** `from` and then `by`, with the sign of a direction. */
export function shifted(from: Expression, sign: 1 | -1, by: Expression): Expression {
  return sign > 0 ? plus(from, by) : minus(from, by);
}

export function same(a: object, b: object): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

/** Names of the variables in an expression. */
export function variablesOf(expression: Expression): string[] {
  switch (expression.kind) {
    case 'variable':
      return [expression.name];
    case 'binary':
      return [...variablesOf(expression.left), ...variablesOf(expression.right)];
    case 'call':
      return variablesOf(expression.argument);
    default:
      return [];
  }
}

function isZero(expression: Expression): boolean {
  return expression.kind === 'length' && expression.mm === 0;
}

/** `base + mm`: two of one base differ by a plain length. */
function offsetOf(expression: Expression): { readonly base: Expression; readonly mm: number } {
  if (expression.kind === 'length') return { base: length(0), mm: expression.mm };
  if (expression.kind !== 'binary' || expression.right.kind !== 'length') return { base: expression, mm: 0 };
  if (expression.operator === '+') return { base: expression.left, mm: expression.right.mm };
  if (expression.operator === '-') return { base: expression.left, mm: -expression.right.mm };
  return { base: expression, mm: 0 };
}

function plusLength(left: Expression, mm: number): Expression {
  if (left.kind === 'length') return length(left.mm + mm);
  if (left.kind === 'binary' && left.right.kind === 'length' && left.operator !== '*') {
    if (left.operator === '+') return plusLength(left.left, left.right.mm + mm);
    if (left.operator === '-') return plusLength(left.left, mm - left.right.mm);
  }
  if (mm === 0) return left;
  return { kind: 'binary', operator: mm < 0 ? '-' : '+', left, right: length(Math.abs(mm)) };
}
