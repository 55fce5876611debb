import {
  isEmpty,
  lookedAt,
  replaceUnknowns,
  subtract,
  type Term,
  touchesOf,
  type Unknown,
  type Value,
  withLiterals,
} from '../program/value.ts';
import type { Place } from '../syntax/place.ts';
import type { Flowing } from './flowing.ts';
import type { PositionTest } from './model.ts';

/** As a `PositionTest`, with the id of the touch for the touch and the index of the axis for its name. */
export interface PositionTestWritten
  extends Pick<PositionTest, 'place' | 'form' | 'margin' | 'tells' | 'restsOn'> {
  readonly touch: number;
  readonly axis: number;
  /** The sign of n on the axis, where it is known. */
  readonly sign: 1 | -1 | null;
}

interface Comparison {
  readonly operator: string;
  /** Left less right. */
  readonly difference: Value;
}

type Coordinate = Unknown & { kind: 'latched' | 'stopped' };

/** What a condition asks of the touches that it looks at; 'other' where that is no comparison of a position. */
export function positionTestsIn(condition: Value, place: Place, flow: Flowing): PositionTestWritten[] {
  const tests = comparisonsIn(condition).flatMap((each) => testOf(each, place, flow) ?? []);
  const told = new Set(tests.map(({ touch }) => touch));
  for (const touch of lookedAt(condition))
    if (!told.has(touch)) tests.push({ ...unclear, touch, axis: 0, place, form: 'other' });
  return tests;
}

const unclear = { margin: null, tells: null, sign: null, restsOn: [] } as const;

function comparisonsIn(value: Value): Comparison[] {
  if (typeof value === 'number') return [];
  return value.terms.flatMap(({ unknown }) => {
    if (unknown.kind !== 'computed') return [];
    const [a, b] = unknown.operands;
    const inside = unknown.operands.flatMap(comparisonsIn);
    if (a === undefined || b === undefined || !/^(EQ|NE|GT|GE|LT|LE)$/.test(unknown.operator)) return inside;
    // `#0` asks whether there is a value at all.
    if (isEmpty(a) || isEmpty(b)) return [];
    return [...inside, { operator: unknown.operator, difference: withLiterals(subtract(a, b)) }];
  });
}

function testOf(
  { operator, difference }: Comparison,
  place: Place,
  flow: Flowing,
): PositionTestWritten | null {
  if (typeof difference === 'number') return null;
  const isEquality = operator === 'EQ' || operator === 'NE';
  const [first, ...others] = coordinatesIn(difference.terms);
  if (!first) return distanceOf(difference.terms, difference.constant, isEquality, place);
  const { touch, axis } = first.unknown;
  const base = { ...unclear, touch, axis, place };
  if (isEquality) return { ...base, form: 'equal', margin: 0 };
  const made = flow.made.get(touch);
  if (others.length > 0 || !made) return null;
  const atEnd = replaceUnknowns(difference, (u) => (u === first.unknown ? (made.to[axis] ?? null) : null));
  const known = withLiterals(atEnd);
  const margin = typeof known === 'number' ? -known / first.coefficient : null;
  const n = made.direction?.[axis as 0 | 1 | 2] ?? 0;
  return {
    ...base,
    form: 'side',
    margin,
    tells: margin === null ? null : toldBy(margin, operator, first.coefficient),
    sign: Math.abs(n) < 1e-9 ? null : n > 0 ? 1 : -1,
    restsOn: namesIn(subtract(made.to[axis] ?? 0, made.from[axis] ?? 0)),
  };
}

/**
 * A bound before the end of a motion upwards parts its contacts from its end, and is passed by none downwards. A bound at
 * the end does so where the end itself lies on the other side than contacts do.
 */
function toldBy(margin: number, operator: string, coefficient: number): 1 | -1 {
  if (Math.abs(margin) > 1e-9) return margin < 0 ? 1 : -1;
  const isBelow = /^L/.test(operator) === coefficient > 0;
  return isBelow === /T$/.test(operator) ? 1 : -1;
}

/** |difference| against a number: mm of tolerance. */
function distanceOf(
  terms: readonly Term[],
  constant: number,
  isEquality: boolean,
  place: Place,
): PositionTestWritten | null {
  const [term, ...others] = terms;
  if (!term || others.length > 0) return null;
  const { unknown, coefficient } = term;
  if (unknown.kind !== 'computed' || unknown.operator !== 'ABS') return null;
  const [inner] = unknown.operands;
  if (inner === undefined || typeof inner === 'number') return null;
  const [first, ...more] = coordinatesIn(inner.terms);
  // A limit on what several touches give together is no test of a position.
  if (!first || more.length > 0) return null;
  const margin = Math.abs(constant / (coefficient * first.coefficient));
  const { touch, axis } = first.unknown;
  return { ...unclear, touch, axis, place, form: isEquality && margin === 0 ? 'equal' : 'distance', margin };
}

function coordinatesIn(terms: readonly Term[]): { unknown: Coordinate; coefficient: number }[] {
  return terms.flatMap(({ unknown, coefficient }) =>
    unknown.kind === 'latched' || unknown.kind === 'stopped' ? [{ unknown, coefficient }] : [],
  );
}

/** Parameters that a value rests on and that the program sets, or that are handed in. */
function namesIn(value: Value): string[] {
  if (typeof value === 'number' || touchesOf(value).size > 0) return [];
  const names = value.terms.flatMap(({ unknown }): string[] => {
    if (unknown.kind === 'computed') return unknown.operands.flatMap(namesIn);
    if (unknown.kind !== 'given') return [];
    const name = /^g:input:([^:]+):/.exec(unknown.key) ?? /^g:join:[^#]*:#([^:]+):/.exec(unknown.key);
    return name?.[1] === undefined ? [] : [name[1]];
  });
  return [...new Set(names)].sort();
}
