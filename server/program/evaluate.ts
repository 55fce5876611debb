import type { DialectName } from '../syntax/dialect.ts';
import type { Place } from '../syntax/place.ts';
import type {
  BinaryExpression,
  CallExpression,
  Expression,
  ParameterExpression,
  Span,
} from '../syntax/tree.ts';
import { binary, call } from './arithmetic.ts';
import { originByIndex } from './indexedOrigin.ts';
import { readParameter, unitScale } from './parameters.ts';
import type { State } from './state.ts';
import {
  add,
  computed,
  given,
  isEmpty,
  scale,
  single,
  subtract,
  type Traced,
  touchesOf,
  type Unknown,
  type Value,
} from './value.ts';
import type { World } from './world.ts';

export interface Scope {
  readonly state: State;
  readonly world: World;
  readonly dialect: DialectName;
  readonly line: number;
}

/**
 * The value of an expression: a plain number where everything in it is one (NISTIR 6556, 3.3.2.2 to 3.3.2.4), else a
 * traced value. What has no value tells the world's `fault` and is unknown.
 */
export function evaluate(e: Expression, scope: Scope): Value {
  switch (e.kind) {
    case 'number':
      return e.value;
    case 'parameter':
      return evaluateParameter(e, scope);
    case 'unary': {
      const value = evaluate(e.operand, scope);
      if (isEmpty(value)) return value;
      return e.operator === '-' ? scale(value, -1) : value;
    }
    case 'binary':
      return evaluateBinary(e, scope);
    case 'call':
      return evaluateCall(e, scope);
    case 'bad':
      return given('bad', 'a value is missing');
  }
}

/** The name (digits or letters, no `#`) that a parameter expression stands for; null where its index is not known. */
export function parameterName(e: ParameterExpression, scope: Scope): string | null {
  if ('name' in e.index) return e.index.name;
  const index = 'number' in e.index ? e.index.number : evaluate(e.index.expression, scope);
  if (typeof index !== 'number') return null;
  const whole = Math.round(index);
  const least = scope.dialect === 'macro' ? 0 : 1;
  if (Math.abs(index - whole) > 1e-4 || whole < least || whole > 999_999_999) {
    scope.world.fault('parameter-index', placeOf(e, scope));
    return null;
  }
  return String(whole);
}

export function placeOf(span: Span, scope: Scope): Place {
  return { line: scope.line, start: span.start, end: span.end };
}

function evaluateParameter(e: ParameterExpression, scope: Scope): Value {
  const name = parameterName(e, scope);
  if (name === null)
    return readIndexed(e, scope) ?? given('indexed', 'a parameter whose number is not known');
  return readParameter(name, scope.state, scope.world, scope.dialect, placeOf(e, scope));
}

function readIndexed({ index }: ParameterExpression, scope: Scope): Value | null {
  return 'expression' in index ? originByIndex(evaluate(index.expression, scope), scope) : null;
}

function evaluateBinary(e: BinaryExpression, scope: Scope): Value {
  const a = evaluate(e.left, scope);
  const b = evaluate(e.right, scope);
  return operate(e.operator, a, b, scope, e, e);
}

/** One operation on two values; literals added to a touch's result are kept apart (error-model.md, section 4). */
export function operate(
  operator: BinaryExpression['operator'],
  a: Value,
  b: Value,
  scope: Scope,
  span: Span,
  written: Partial<Pick<BinaryExpression, 'left' | 'right'>> | null = null,
): Value {
  if (isEmpty(a) || isEmpty(b)) return operateOnEmpty(operator, a, b, scope, span);
  if (typeof a === 'number' && typeof b === 'number') {
    const result = binary(operator, a, b, scope.dialect);
    if (typeof result === 'number') return result;
    scope.world.fault(result, placeOf(span, scope));
    return given('fault', 'a value that can not be computed');
  }
  switch (operator) {
    case '+':
      return add(marked(a, b, scope, span, written?.left), marked(b, a, scope, span, written?.right));
    case '-':
      return subtract(marked(a, b, scope, span, written?.left), marked(b, a, scope, span, written?.right));
    case '*':
      if (isShareOfTouches(a, b)) return computed(operator, [marked(a, b, scope, span, written?.left), b]);
      if (isShareOfTouches(b, a)) return computed(operator, [a, marked(b, a, scope, span, written?.right)]);
      if (typeof a === 'number') return scale(b, a);
      if (typeof b === 'number') return scale(a, b);
      break;
    case '/':
      if (isShareOfTouches(a, b)) return computed(operator, [marked(a, b, scope, span, written?.left), b]);
      if (typeof b === 'number' && b !== 0) return scale(a, 1 / b);
      break;
  }
  return computed(operator, [a, b]);
}

/** A number beside a root, an angle's function or a quotient of touches: perhaps the radius, along a slope. */
function isShareOfTouches(factor: Value, of: Value): boolean {
  if (typeof factor !== 'number' || factor === 0 || typeof of === 'number') return false;
  return of.constant === 0 && of.terms.every(({ unknown }) => isShare(unknown)) && touchesOf(of).size > 0;
}

function isShare(unknown: Unknown): boolean {
  return unknown.kind === 'computed' && /^(SQRT|COS|SIN|TAN|\/)$/.test(unknown.operator);
}

/** Empty equals empty alone; in all else it counts as 0 (macro family, common practice). */
function operateOnEmpty(
  operator: BinaryExpression['operator'],
  a: Value,
  b: Value,
  scope: Scope,
  span: Span,
): Value {
  const number = (v: Value) => (isEmpty(v) ? 0 : v);
  if (operator !== 'EQ' && operator !== 'NE') return operate(operator, number(a), number(b), scope, span);
  const both = isEmpty(a) && isEmpty(b);
  const other = isEmpty(a) ? b : a;
  if (!both && typeof other !== 'number') return computed(operator, [a, b]);
  return both === (operator === 'EQ') ? 1 : 0;
}

/** A number beside a touch's result becomes a literal of its own: it may be the tip's diameter or radius. */
function marked(value: Value, beside: Value, scope: Scope, span: Span, written?: Expression): Value {
  if (value === 0 || touchesOf(beside).size === 0) return value;
  if (typeof value !== 'number') return markedBesidePlaces(value, scope, written ?? span);
  return (written && markedInSum(written, beside, scope)) ?? literal(value, scope, span, written);
}

function literal(value: number, scope: Scope, span: Span, written?: Expression): Value {
  const perMillimetre = unitScale(scope.state, scope.world);
  const length = value / perMillimetre;
  const place = placeOf(span, scope);
  const key = `k:${length}@${place.line}:${place.start}`;
  const factors = written ? factorsOf(written, scope).map((factor) => factor / perMillimetre) : [];
  return single({ kind: 'literal', key, value: length, perMillimetre, place, factors }, perMillimetre);
}

/** The same for a number that was added to the origin of a work offset before. */
function markedBesidePlaces(value: Traced, scope: Scope, shown: Span | Expression): Value {
  const { constant, terms } = value;
  if (constant === 0 || !terms.every(({ unknown }) => isOriginRead(unknown))) return value;
  return add(add(value, -constant), literal(constant, scope, numberIn(shown, scope)));
}

function isOriginRead(unknown: Unknown): boolean {
  return (
    unknown.kind === 'given' &&
    unknown.touches.length === 0 &&
    /^g:(input:5[23]\d\d|origin|beside):/.test(unknown.key)
  );
}

/** What shows the number of a sum with a sign before it that is the number's own, else without any. */
function numberIn(shown: Span | Expression, scope: Scope): Span {
  if (!('kind' in shown) || shown.kind !== 'binary') return shown;
  if (typeof evaluate(shown.right, scope) === 'number') return shown;
  return numberIn(shown.left, scope);
}

/** Of a number that is where an axis stands, or an origin, and another number: the other alone. */
function markedInSum(e: Expression, beside: Value, scope: Scope): Value | null {
  if (e.kind !== 'binary' || (e.operator !== '+' && e.operator !== '-')) return null;
  const [isLeft, isRight] = [isPlaceRead(e.left, scope), isPlaceRead(e.right, scope)];
  if (isLeft === isRight) return null;
  const [left, right] = [evaluate(e.left, scope), evaluate(e.right, scope)];
  const a = isLeft ? left : marked(left, beside, scope, e.left, e.left);
  const b = isRight ? right : marked(right, beside, scope, e, e.right);
  return e.operator === '+' ? add(a, b) : subtract(a, b);
}

/** Reads a position or an origin (NISTIR 6556, Table 4, and the parameters beside it): `#5420`, `#5221`, `#<_x>`. */
function isPlaceRead(e: Expression, scope: Scope): boolean {
  if (e.kind !== 'parameter') return false;
  const name = parameterName(e, scope) ?? '';
  return /^5(0|2|3|42)\d+$/.test(name) || /^_(abs_)?[xyz]$/.test(name);
}

/** Numbers, as written or as a parameter holds them, that the expression is a multiple of: `3.982` in `0.25*3.982`. */
function factorsOf(e: Expression, scope: Scope): readonly number[] {
  if (e.kind === 'unary') return factorsOf(e.operand, scope);
  if (e.kind !== 'binary' || (e.operator !== '*' && e.operator !== '/')) return [];
  const sides = e.operator === '*' ? [e.left, e.right] : [e.left];
  return sides.flatMap((side) => {
    if (side.kind !== 'number' && side.kind !== 'parameter') return factorsOf(side, scope);
    const value = evaluate(side, scope);
    return typeof value === 'number' && value !== 0 ? [value] : [];
  });
}

function evaluateCall(e: CallExpression, scope: Scope): Value {
  if (e.name === 'EXISTS' && scope.world.exists) return existence(e, scope);
  const operands = e.arguments.map((argument) => evaluate(argument, scope));
  return applyFunction(e.name, operands, scope, e);
}

function existence(e: CallExpression, scope: Scope): Value {
  const [asked] = e.arguments;
  const name = asked?.kind === 'parameter' ? parameterName(asked, scope) : null;
  return name !== null && scope.world.exists?.(name, scope.state) ? 1 : 0;
}

export function applyFunction(
  name: CallExpression['name'],
  operands: readonly Value[],
  scope: Scope,
  span: Span,
): Value {
  const [x, y] = operands.map((v) => (isEmpty(v) ? 0 : v));
  if (name === 'EXISTS') return given(`exists:${scope.line}:${span.start}`, 'whether a parameter exists');
  if (x !== undefined && typeof x === 'number' && (y === undefined || typeof y === 'number')) {
    const result = call(name, x, y, scope.dialect);
    if (typeof result === 'number') return result;
    scope.world.fault(result, placeOf(span, scope));
    return given('fault', 'a value that can not be computed');
  }
  return computed(name, operands);
}
