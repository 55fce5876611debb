import { lookedAt, type Unknown, type Value } from '../program/value.ts';
import type { Place } from '../syntax/place.ts';
import type { Made, Running } from './flowing.ts';

/** What the last test of a touch has told on a path: which of the two, or only on which side of a status the path lies. */
export interface Told {
  readonly test: Place;
  readonly side: 'failed' | 'met' | 'true' | 'false';
}

/** A test of results that the path came by, while no touch came behind it. */
export interface LastTest {
  readonly place: Place;
  /** The touches that it looked at; none where it read results before any touch was made. */
  readonly touches: readonly number[];
}

/** Of paths that meet the first ones are kept. */
const mostTold = 16;

/** All that is told on one of two paths that meet. */
export function joinTold(a: readonly Told[], b: readonly Told[]): readonly Told[] {
  if (a === b || sameTold(a, b)) return a;
  const all = new Map([...a, ...b].map((told) => [keyOfTold(told), told]));
  const keys = [...all.keys()].sort().slice(0, mostTold);
  return keys.flatMap((key) => all.get(key) ?? []);
}

export function sameTold(a: readonly Told[], b: readonly Told[]): boolean {
  return a.length === b.length && a.every((told, i) => keyOfTold(told) === keyOfTold(b[i] as Told));
}

function keyOfTold({ test, side }: Told): string {
  return `${test.line}:${test.start}:${side}`;
}

/** One test on both of two paths that meet, and all that it sees on either; null where they passed different ones. */
export function joinTest(a: LastTest | null, b: LastTest | null): LastTest | null {
  if (a === null || b === null || sameTest(a, b)) return a && b && a;
  if (a.place.line !== b.place.line || a.place.start !== b.place.start) return null;
  return { place: a.place, touches: [...new Set([...a.touches, ...b.touches])].sort((x, y) => x - y) };
}

export function sameTest(a: LastTest | null, b: LastTest | null): boolean {
  if (a === null || b === null) return a === b;
  return (
    a.place.line === b.place.line &&
    a.place.start === b.place.start &&
    a.touches.length === b.touches.length &&
    a.touches.every((touch, i) => touch === b.touches[i])
  );
}

/** Touches that two paths tell different things of: what differs where they meet may tell which path it was. */
export function partedTouches(a: ReadonlyMap<number, Made>, b: ReadonlyMap<number, Made>): readonly number[] {
  if (a === b) return [];
  const parted: number[] = [];
  for (const [touch, here] of a) {
    const there = b.get(touch);
    if (!there || here === there || here.told.length === 0 || there.told.length === 0) continue;
    if (!sameTold(here.told, there.told)) parted.push(touch);
  }
  return parted;
}

/** The tests whose failing side the path lies on, or which tell nothing because both their sides lead here. */
export function testsPassedFailing(told: readonly Told[]): Place[] {
  const isThere = (test: Place, side: Told['side']) =>
    told.some((each) => each.side === side && each.test.line === test.line && each.test.start === test.start);
  return told.flatMap(({ test, side }) =>
    side === 'failed' || (side === 'true' && isThere(test, 'false')) ? [test] : [],
  );
}

/** On every path that leads here the touch has failed. */
export function isKnownFailed({ tested, told }: Made): boolean {
  return tested && told.length > 0 && told.every(({ side }) => side === 'failed');
}

/** A condition over a status input alone: it tells whether the probe met something, not which side says so. */
export function asksStatus(condition: Value): boolean {
  return (
    restsOn(condition, (unknown) => unknown.kind === 'status') !== 'other' && lookedAt(condition).size > 0
  );
}

/** A condition over success or coordinates that no touch has left yet, as a program's start finds them. */
export function asksBeforeAnyTouch(condition: Value): boolean {
  return restsOn(condition, ({ kind, key }) => kind === 'given' && noTouchYet.test(key)) === 'all';
}

const noTouchYet = /^g:(success|never-latched):/;

/** Whether all unknowns of a value are of a kind; a value without any rests on none. */
function restsOn(value: Value, isOne: (unknown: Unknown) => boolean): 'all' | 'none' | 'other' {
  if (typeof value === 'number') return 'none';
  const parts = value.terms.map(({ unknown }) => {
    if (unknown.kind === 'literal') return 'none';
    if (unknown.kind !== 'computed') return isOne(unknown) ? 'all' : 'other';
    return joinParts(unknown.operands.map((operand) => restsOn(operand, isOne)));
  });
  return joinParts(parts);
}

function joinParts(parts: readonly ('all' | 'none' | 'other')[]): 'all' | 'none' | 'other' {
  if (parts.includes('other')) return 'other';
  return parts.includes('all') ? 'all' : 'none';
}

/** A value holds a coordinate of the touch itself, not one of several that paths brought. */
export function holdsCoordinate(value: Value, touch: number): boolean {
  if (typeof value === 'number') return false;
  return value.terms.some(({ unknown }) => {
    if (unknown.kind === 'computed') return unknown.operands.some((each) => holdsCoordinate(each, touch));
    return (unknown.kind === 'latched' || unknown.kind === 'stopped') && unknown.touch === touch;
  });
}

/**
 * The test that stood before a touch made now and sees an older result: one before any touch, of an earlier pass of the
 * same touch, or of touches the same way.
 */
export function staleTestFor(
  { lastTest, made }: Pick<Running, 'lastTest' | 'made'>,
  touch: number,
  how: Pick<Made, 'direction' | 'axis'>,
): LastTest | null {
  if (lastTest === null) return null;
  const touches = lastTest.touches.filter((other) => other === touch || goesTheSameWay(made.get(other), how));
  return touches.length > 0 || lastTest.touches.length === 0 ? { place: lastTest.place, touches } : null;
}

export function goesTheSameWay(
  other: Pick<Made, 'direction' | 'axis'> | undefined,
  { direction, axis }: Pick<Made, 'direction' | 'axis'>,
): boolean {
  const there = other?.direction;
  return !!there && direction !== null && other.axis === axis && there.every((n, i) => n === direction[i]);
}
