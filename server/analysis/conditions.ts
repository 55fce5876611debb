import { binary, call } from '../program/arithmetic.ts';
import {
  add,
  computed,
  lookedAt,
  replaceUnknowns,
  scale,
  subtract,
  type Unknown,
  type Value,
  withLiterals,
} from '../program/value.ts';
import type { DialectName } from '../syntax/dialect.ts';
import { dialects } from '../syntax/dialects.ts';
import type { BinaryOperator, FunctionName } from '../syntax/tree.ts';
import type { Flowing, Made } from './flowing.ts';

/** On which side of a test a touch has failed, where that can be told. */
export interface Failure {
  readonly touch: number;
  readonly side: boolean;
}

/**
 * Tries a condition under the supposition that a touch met nothing: success is 0, and the latched and the resting
 * position are the programmed end of travel. Where that decides the condition, that side is the failing one.
 */
export function failingSides(condition: Value, flow: Flowing, dialect: DialectName): Failure[] {
  const failures: Failure[] = [];
  for (const touch of lookedAt(condition)) {
    const made = flow.made.get(touch);
    if (!made) continue;
    const failed = decide(condition, (u) => supposed(u, touch, made.to), dialect);
    if (failed === null || decide(condition, (u) => halfWay(u, touch, made), dialect) === failed) continue;
    const met = decide(condition, (u) => (u.kind === 'success' && u.touch === touch ? 1 : null), dialect);
    if (met !== failed) failures.push({ touch, side: failed });
  }
  return failures;
}

/**
 * The touches that a condition looks at together with a count of the program, `#5070 EQ 0 AND #<n> LT 3`: the side that a
 * success leads to, where a failure may end up on it as well.
 */
export function mixedSides(condition: Value, flow: Flowing, dialect: DialectName): Failure[] {
  return [...lookedAt(condition)].flatMap((touch) => {
    const made = flow.made.get(touch);
    if (!made) return [];
    const isMet = (u: Unknown) => (u.kind === 'success' && u.touch === touch ? 1 : halfWay(u, touch, made));
    const met = decide(condition, isMet, dialect);
    if (met === null) return [];
    const left = substitute(condition, (u) => supposed(u, touch, made.to), dialect);
    return typeof left !== 'number' && unknownsOf(left).every(isCounted) ? [{ touch, side: met }] : [];
  });
}

function unknownsOf(value: Value): Unknown[] {
  if (typeof value === 'number') return [];
  return value.terms.flatMap(({ unknown }) =>
    unknown.kind === 'computed' ? unknown.operands.flatMap(unknownsOf) : [unknown],
  );
}

/** What the program set itself, to one thing or another by the way that it came. */
function isCounted(unknown: Unknown): boolean {
  return unknown.kind === 'given' && unknown.key.startsWith('g:join:') && unknown.touches.length === 0;
}

/** true or false where the condition can be decided, with some unknowns replaced; else null. */
export function decide(
  condition: Value,
  replace: (u: Unknown) => Value | null,
  dialect: DialectName,
): boolean | null {
  const value = substitute(condition, replace, dialect);
  return typeof value === 'number' ? value !== 0 : null;
}

/** The position half-way along the touch: a test that takes it for the end of travel tells no failure. */
function halfWay(u: Unknown, touch: number, { from, to }: Made): Value | null {
  if ((u.kind !== 'latched' && u.kind !== 'stopped') || u.touch !== touch) return null;
  const [start, end] = [from[u.axis], to[u.axis]];
  return start === undefined || end === undefined ? null : withLiterals(scale(add(start, end), 0.5));
}

function supposed(u: Unknown, touch: number, to: readonly Value[]): Value | null {
  if (u.kind === 'success' && u.touch === touch) return 0;
  const end = (u.kind === 'latched' || u.kind === 'stopped') && u.touch === touch ? to[u.axis] : undefined;
  return end === undefined ? null : withLiterals(end);
}

function substitute(value: Value, replace: (u: Unknown) => Value | null, dialect: DialectName): Value {
  return replaceUnknowns(value, (u) => replacement(u, replace, dialect));
}

function replacement(u: Unknown, replace: (u: Unknown) => Value | null, dialect: DialectName): Value | null {
  const own = replace(u);
  if (own !== null) return own;
  if (u.kind === 'literal') return u.value;
  if (u.kind !== 'computed') return null;
  const operands = u.operands.map((o) => substitute(o, replace, dialect));
  return apply(u.operator, operands, dialect);
}

const comparisons: readonly string[] = ['EQ', 'NE', 'GT', 'GE', 'LT', 'LE'];

function isFunction(operator: string, dialect: DialectName): operator is FunctionName {
  return (dialects[dialect].functions as readonly string[]).includes(operator);
}

function apply(
  operator: BinaryOperator | FunctionName,
  operands: readonly Value[],
  dialect: DialectName,
): Value {
  const [a, b] = operands;
  if (a === undefined) return computed(operator, operands);
  if (isFunction(operator, dialect)) {
    if (typeof a !== 'number' || (b !== undefined && typeof b !== 'number'))
      return computed(operator, operands);
    const result = call(operator, a, b, dialect);
    return typeof result === 'number' ? result : computed(operator, operands);
  }
  if (b === undefined) return computed(operator, operands);
  if (comparisons.includes(operator)) {
    const difference = subtract(a, b);
    const result = typeof difference === 'number' ? binary(operator as 'LT', difference, 0, dialect) : null;
    return typeof result === 'number' ? result : computed(operator, operands);
  }
  return applyArithmetic(operator as BinaryOperator, a, b, dialect);
}

function applyArithmetic(operator: BinaryOperator, a: Value, b: Value, dialect: DialectName): Value {
  if (typeof a === 'number' && typeof b === 'number') {
    const result = binary(operator, a, b, dialect);
    return typeof result === 'number' ? result : computed(operator, [a, b]);
  }
  if (operator === 'AND' && (a === 0 || b === 0)) return 0;
  if (operator === 'OR' && ((typeof a === 'number' && a !== 0) || (typeof b === 'number' && b !== 0)))
    return 1;
  if (operator === '*' && typeof a === 'number') return scale(b, a);
  if (operator === '*' && typeof b === 'number') return scale(a, b);
  return computed(operator, [a, b]);
}
