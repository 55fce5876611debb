import type { Place } from '../syntax/place.ts';
import type { BinaryOperator, FunctionName } from '../syntax/tree.ts';

/** A constant is a plain number; everything that rests on touches, inputs or the start is traced. */
export type Value = number | Traced;

/** Unknowns that a traced value is built over. Lengths of touches, literals and offsets are in mm. */
export type Unknown =
  /** Latched coordinate of a touch, work coordinates, mm. */
  | { readonly kind: 'latched'; readonly key: string; readonly touch: number; readonly axis: number }
  /** Where the axis came to rest after a touch. */
  | { readonly kind: 'stopped'; readonly key: string; readonly touch: number; readonly axis: number }
  /** 1 after a touch that met something, else 0. */
  | { readonly kind: 'success'; readonly key: string; readonly touch: number }
  /** A status input read after touches: it may tell whether the last of them met something. */
  | { readonly kind: 'status'; readonly key: string; readonly touches: readonly number[] }
  /** A number that the program adds to a touch's result: perhaps the diameter (error-model.md section 4). */
  | {
      readonly kind: 'literal';
      readonly key: string;
      /** mm, by the unit in force where it was added. */
      readonly value: number;
      readonly perMillimetre: number;
      readonly place: Place;
      /** mm: numbers of the text that the value is a multiple of; one of them may be the diameter. */
      readonly factors: readonly number[];
    }
  /** The diameter read from the tool table or from the shop's own parameter. */
  | {
      readonly kind: 'diameter';
      readonly key: string;
      readonly source: 'tool-table' | 'parameter';
      readonly place: Place;
    }
  /** Anything that the file does not show: an input, the start position, an offset, a joined value. */
  | {
      readonly kind: 'given';
      readonly key: string;
      /** Touches whose coordinates it may hold. */
      readonly touches: readonly number[];
      /** Touches whose success it may tell. */
      readonly tells: readonly number[];
      readonly reason: string;
    }
  /** A result that is not affine in what it rests on; kept so that a condition can be tried out. */
  | {
      readonly kind: 'computed';
      readonly key: string;
      readonly operator: BinaryOperator | FunctionName;
      readonly operands: readonly Value[];
      readonly depth: number;
    };

export interface Term {
  readonly unknown: Unknown;
  readonly coefficient: number;
}

/** constant + Σ coefficient·unknown, in the program's units. */
export interface Traced {
  /** Sorted by key, no coefficient is zero, at least one term. */
  readonly terms: readonly Term[];
  readonly constant: number;
  readonly key: string;
}

const mostTerms = 64;
/** Of a value that rests on more touches the last ones are kept: fewer findings, never a wrong one. */
const mostTouches = 64;
const deepest = 12;

export function isNumber(value: Value): value is number {
  return typeof value === 'number';
}

export function same(a: Value, b: Value): boolean {
  if (typeof a === 'number' || typeof b === 'number') return Object.is(a, b);
  return a.key === b.key;
}

/** coefficient·unknown as a value. */
export function single(unknown: Unknown, coefficient = 1): Value {
  return coefficient === 0 ? 0 : make([{ unknown, coefficient }], 0);
}

export function given(
  key: string,
  reason: string,
  touches: readonly number[] = [],
  tells: readonly number[] = [],
): Value {
  const [held, told] = [latest(touches), latest(tells)];
  const own = `g:${key}:${held.join(',')}${told.length > 0 ? `:${told.join(',')}` : ''}`;
  return single({ kind: 'given', key: own, touches: held, tells: told, reason });
}

/** `#0` of the macro family, and what nothing set: no number, and not 0 in a test for equality. */
export const empty: Value = given('empty', '#0 is empty');

export function isEmpty(value: Value): boolean {
  return value === empty || (typeof value !== 'number' && value.key === keyOf(empty));
}

function latest(touches: readonly number[]): number[] {
  return [...new Set(touches)].sort((a, b) => a - b).slice(-mostTouches);
}

export function add(a: Value, b: Value): Value {
  if (typeof a === 'number' && typeof b === 'number') return a + b;
  if (typeof a === 'number') return make((b as Traced).terms, (b as Traced).constant + a);
  if (typeof b === 'number') return make(a.terms, a.constant + b);
  return make(merge(a.terms, b.terms), a.constant + b.constant);
}

export function scale(a: Value, factor: number): Value {
  if (typeof a === 'number') return a * factor;
  if (factor === 1) return a;
  if (factor === 0) return 0;
  return make(
    a.terms.map((t) => ({ unknown: t.unknown, coefficient: t.coefficient * factor })),
    a.constant * factor,
  );
}

export function subtract(a: Value, b: Value): Value {
  return typeof a === 'number' && typeof b === 'number' ? a - b : add(a, scale(b, -1));
}

/** A result that is not affine: kept as it was computed, or given up where it has grown too deep. */
export function computed(operator: BinaryOperator | FunctionName, operands: readonly Value[]): Value {
  const depth = 1 + Math.max(0, ...operands.map(depthOf));
  const key = `f:${operator}(${operands.map(keyOf).join(';')})`;
  if (depth > deepest || key.length > 2000)
    return given(
      `deep:${shortened(key)}`,
      'a value computed in more steps than are followed',
      operands.flatMap((o) => [...touchesOf(o)]),
    );
  return single({ kind: 'computed', key, operator, operands, depth });
}

/** The value with the literals that were kept apart taken as the numbers they are. */
export function withLiterals(value: Value): Value {
  return replaceUnknowns(value, (u) => (u.kind === 'literal' ? u.value : null));
}

/** The value with some unknowns of its affine form replaced, each by what it is in its own unit (mm for lengths). */
export function replaceUnknowns(value: Value, replace: (u: Unknown) => Value | null): Value {
  if (typeof value === 'number') return value;
  let sum: Value = value.constant;
  for (const { unknown, coefficient } of value.terms) {
    const known = replace(unknown);
    sum = add(sum, known === null ? single(unknown, coefficient) : scale(known, coefficient));
  }
  return sum;
}

/** Touches whose coordinates (latched or stopped) went into the value. */
export function touchesOf(value: Value): ReadonlySet<number> {
  const found = new Set<number>();
  collect(value, found, 'coordinates');
  return found;
}

/** Touches that a condition over this value looks at: their coordinates, their success, a status input. */
export function lookedAt(value: Value): ReadonlySet<number> {
  const found = new Set<number>();
  collect(value, found, 'all');
  return found;
}

export function keyOf(value: Value): string {
  return typeof value === 'number' ? String(value) : value.key;
}

function collect(value: Value, found: Set<number>, what: 'coordinates' | 'all'): void {
  if (typeof value === 'number') return;
  for (const { unknown } of value.terms) {
    switch (unknown.kind) {
      case 'latched':
      case 'stopped':
        found.add(unknown.touch);
        break;
      case 'success':
        if (what === 'all') found.add(unknown.touch);
        break;
      case 'status':
        if (what === 'all') for (const t of unknown.touches) found.add(t);
        break;
      case 'given':
        for (const t of unknown.touches) found.add(t);
        if (what === 'all') for (const t of unknown.tells) found.add(t);
        break;
      case 'computed':
        for (const o of unknown.operands) collect(o, found, what);
        break;
    }
  }
}

function depthOf(value: Value): number {
  if (typeof value === 'number') return 0;
  return Math.max(0, ...value.terms.map((t) => (t.unknown.kind === 'computed' ? t.unknown.depth : 0)));
}

function merge(a: readonly Term[], b: readonly Term[]): Term[] {
  const sum: Term[] = [];
  let i = 0;
  let k = 0;
  while (i < a.length || k < b.length) {
    const left = a[i];
    const right = b[k];
    if (left && (!right || left.unknown.key < right.unknown.key)) {
      sum.push(left);
      i++;
    } else if (right && (!left || right.unknown.key < left.unknown.key)) {
      sum.push(right);
      k++;
    } else if (left && right) {
      const coefficient = left.coefficient + right.coefficient;
      const least = 1e-12 * Math.max(Math.abs(left.coefficient), Math.abs(right.coefficient));
      if (Math.abs(coefficient) > least) sum.push({ unknown: left.unknown, coefficient });
      i++;
      k++;
    }
  }
  return sum;
}

function make(terms: readonly Term[], constant: number): Value {
  if (terms.length === 0) return constant;
  if (terms.length > mostTerms) {
    const touches = terms.flatMap((t) => [...touchesOf({ terms: [t], constant: 0, key: '' })]);
    const sum = given(
      `long:${shortened(keyOfTerms(terms))}`,
      'a sum of more terms than are followed',
      touches,
    );
    return add(sum, constant);
  }
  const key = `${keyOfTerms(terms)}+${constant}`;
  return { terms, constant, key };
}

function keyOfTerms(terms: readonly Term[]): string {
  return terms.map((t) => `${t.coefficient}*${t.unknown.key}`).join('+');
}

/** A short name for a long key, so that two values that are not the same do not cancel (FNV-1a, two halves). */
function shortened(key: string): string {
  let [a, b] = [0x811c9dc5, 0x01000193];
  for (let i = 0; i < key.length; i++) {
    const unit = key.charCodeAt(i);
    a = Math.imul(a ^ unit, 0x01000193);
    b = Math.imul(b ^ unit, 0x85ebca6b);
  }
  return `${(a >>> 0).toString(36)}${(b >>> 0).toString(36)}`;
}
