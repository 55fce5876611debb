import type { Expression } from './expression.ts';

/** A value with its derivatives by what it rests on: touches and the tip's diameter. */
export interface Derivative {
  readonly value: number;
  readonly by: ReadonlyMap<string, number>;
}

/** The key that stands for the effective diameter in `by`. */
export const byTipDiameter = 'tip-diameter';

export interface Surroundings {
  readonly variables: ReadonlyMap<string, Derivative>;
  /** mm. */
  readonly tipDiameter: number;
}

export const constant = (value: number): Derivative => ({ value, by: new Map() });

/** Value and exact derivatives of an expression (chain rule); lengths in mm, angles in degrees. An unset variable is 0. */
export function derive(expression: Expression, around: Surroundings): Derivative {
  switch (expression.kind) {
    case 'number':
      return constant(expression.value);
    case 'length':
      return constant(expression.mm);
    case 'variable':
      return around.variables.get(expression.name) ?? constant(0);
    case 'latched':
      throw new Error('A latched coordinate is known through the variable that keeps it.');
    case 'tip-diameter':
      return { value: around.tipDiameter, by: new Map([[byTipDiameter, 1]]) };
    case 'binary':
      return binary(expression, derive(expression.left, around), derive(expression.right, around));
    case 'call':
      return called(expression.name, derive(expression.argument, around));
  }
}

function binary(
  { operator }: Expression & { kind: 'binary' },
  left: Derivative,
  right: Derivative,
): Derivative {
  switch (operator) {
    case '+':
      return combined(left.value + right.value, left, 1, right, 1);
    case '-':
      return combined(left.value - right.value, left, 1, right, -1);
    case '*':
      return combined(left.value * right.value, left, right.value, right, left.value);
    case '/':
      return combined(left.value / right.value, left, 1 / right.value, right, -left.value / right.value ** 2);
  }
}

function called(name: 'ABS' | 'SQRT' | 'ATAN', argument: Derivative): Derivative {
  const x = argument.value;
  switch (name) {
    case 'ABS':
      return combined(Math.abs(x), argument, Math.sign(x), constant(0), 0);
    case 'SQRT':
      return combined(Math.sqrt(x), argument, 0.5 / Math.sqrt(x), constant(0), 0);
    case 'ATAN': {
      const degrees = 180 / Math.PI;
      return combined(Math.atan(x) * degrees, argument, degrees / (1 + x * x), constant(0), 0);
    }
  }
}

function combined(value: number, a: Derivative, aFactor: number, b: Derivative, bFactor: number): Derivative {
  const by = new Map<string, number>();
  for (const [key, slope] of a.by) by.set(key, slope * aFactor);
  for (const [key, slope] of b.by) by.set(key, (by.get(key) ?? 0) + slope * bFactor);
  return { value, by };
}
