import { add, single, touchesOf, type Unknown, type Value } from '../program/value.ts';
import type { DialectName } from '../syntax/dialect.ts';
import { type FaceSpot, faceSpot } from './faceSpots.ts';
import type { Made } from './flowing.ts';
import { type Slope, slopeOf } from './slopes.ts';

/** A value that is no sum of touches, seen near where the touches are expected. */
export interface Near {
  /** Sums that it comes close to, mm, once for each guess at what the file does not show. */
  readonly sums: readonly Value[];
  /**
   * mm that it moves by, where the part and the tip's start before it lie 1 mm further along the axis, and along the other
   * one where touches measured that too; once for each guess. Empty where it need not follow: some touch is not placed by
   * that start, or coordinates are turned.
   */
  readonly follows: readonly { readonly along: number; readonly across: number }[];
  /** Where on a sloping face it is taken, once for each guess; empty where it is taken on none. */
  readonly spots: readonly FaceSpot[];
}

/** What a value is seen by. */
export interface Sight {
  readonly made: ReadonlyMap<number, Made>;
  readonly perMm: number;
  readonly dialect: DialectName;
}

/** The same for a value of an axis. */
export interface Surroundings extends Sight {
  readonly axis: 0 | 1;
}

/** How far along its way a touch is expected to meet something; how far, mm, others of the part may lie off. */
export interface Guess {
  readonly seed: number;
  readonly share: number;
  readonly off: number;
}

const expected: readonly Guess[] = [
  { seed: 1, share: 0.6, off: 0 },
  { seed: 2, share: 0.8, off: 0 },
];
const anywhere: readonly Guess[] = [
  { seed: 3, share: 0.6, off: 1.5 },
  { seed: 4, share: 0.8, off: 1.5 },
  { seed: 5, share: 0.7, off: 1.5 },
];
const mostUnknowns = 40;
/** mm that a diameter which the program reads from elsewhere is taken for. */
export const guessedDiameter = 5;

/** null where the value (mm) is a sum, or rests on what has no slope. */
export function nearOf(value: Value, around: Surroundings): Near | null {
  if (typeof value === 'number' || !value.terms.some(({ unknown }) => isCurved(unknown))) return null;
  const unknowns = [...unknownsIn(value)];
  if (unknowns.length > mostUnknowns || unknowns.some((u) => u.kind === 'success' || u.kind === 'status'))
    return null;
  const spots = expected.flatMap((guess) => spotAt(value, unknowns, guess, around) ?? []);
  return {
    sums: sumsOf(value, unknowns, around),
    follows: followsOf(value, unknowns, around),
    spots: spots.length === expected.length ? spots : [],
  };
}

/** Whether a value is above 0 wherever the touches are expected; false where that can not be told. */
export function isAboveZero(value: Value, sight: Sight): boolean {
  const still = () => 0;
  return expected.every((guess) => (slopeAt(value, guess, sight, still)?.at ?? 0) > 0);
}

/**
 * Sums that a value which is none comes close to where the touches are expected, once for each guess; empty where there are
 * none, or where something enters whose place in a guess would hang on which paths were followed before.
 */
export function sumsNear(value: Value, sight: Sight): readonly Value[] {
  if (typeof value === 'number' || !value.terms.some(({ unknown }) => isCurved(unknown))) return [];
  const unknowns = [...unknownsIn(value)];
  const isShown = (u: Unknown) =>
    u.kind === 'given' ? isFound(u.key) : u.kind !== 'success' && u.kind !== 'status';
  return unknowns.length <= mostUnknowns && unknowns.every(isShown) ? sumsOf(value, unknowns, sight) : [];
}

function sumsOf(value: Value, unknowns: readonly Unknown[], sight: Sight): readonly Value[] {
  const sums = expected.flatMap((guess) => sumAt(value, unknowns, guess, sight) ?? []);
  return sums.length === expected.length ? sums : [];
}

/** What a program finds when it starts, or asks the machine for. */
function isFound(key: string): boolean {
  return /^g:(start|input|origin|beside):/.test(key);
}

/** Computed of touches, and no sum of them. */
export function isCurved(unknown: Unknown): boolean {
  if (unknown.kind !== 'computed') return false;
  return touchesOf({ terms: [{ unknown, coefficient: 1 }], constant: 0, key: unknown.key }).size > 0;
}

function unknownsIn(value: Value, found = new Map<string, Unknown>()): Iterable<Unknown> {
  if (typeof value === 'number') return found.values();
  for (const { unknown } of value.terms) {
    if (found.has(unknown.key)) continue;
    if (unknown.kind === 'computed') for (const operand of unknown.operands) unknownsIn(operand, found);
    else found.set(unknown.key, unknown);
  }
  return found.values();
}

function sumAt(value: Value, unknowns: readonly Unknown[], guess: Guess, around: Sight): Value | null {
  let sum: Value = 0;
  for (const each of unknowns) {
    const slope = slopeAt(value, guess, around, (u) => (u.key === each.key ? 1 : 0));
    if (slope === null) return null;
    sum = add(sum, single(each, slope.by));
  }
  return sum;
}

function spotAt(
  value: Value,
  unknowns: readonly Unknown[],
  guess: Guess,
  around: Surroundings,
): FaceSpot | null {
  const still = () => 0;
  return faceSpot(unknowns, guess, around, {
    slopeBy: ({ key }) => slopeAt(value, guess, around, (u) => (u.key === key ? 1 : 0))?.by ?? null,
    at: (place, where) => slopeAt(place, where, around, still)?.at ?? null,
  });
}

function followsOf(value: Value, unknowns: readonly Unknown[], around: Surroundings): Near['follows'] {
  if (!unknowns.every((u) => isPlaced(u, around)) || turns(value)) return [];
  const isCrossed = unknowns.some((u) => isTouched(u) && u.axis !== around.axis);
  const by = (axis: number) => (u: Unknown) => moved(u, axis, around.perMm);
  const found = anywhere.flatMap((guess) => {
    const along = slopeAt(value, guess, around, by(around.axis));
    const across = slopeAt(value, guess, around, by(1 - around.axis));
    return along && across ? [{ along: along.by, across: isCrossed ? across.by : 0 }] : [];
  });
  return found.length === anywhere.length ? found : [];
}

/** Coordinates multiplied by sines and cosines: turned about a point that need not go along. */
function turns(value: Value): boolean {
  if (typeof value === 'number') return false;
  return value.terms.some(
    ({ unknown: u }) =>
      u.kind === 'computed' && (u.operator === 'SIN' || u.operator === 'COS' || u.operands.some(turns)),
  );
}

function isTouched(u: Unknown): u is Unknown & { kind: 'latched' | 'stopped' } {
  return u.kind === 'latched' || u.kind === 'stopped';
}

function slopeAt(value: Value, guess: Guess, around: Sight, by: (u: Unknown) => number): Slope | null {
  const along = (u: Unknown): Slope | null => {
    const at = placeOf(u, guess, around, 0);
    return at === null ? null : { at, by: by(u) };
  };
  return slopeOf(value, along, around.dialect);
}

/** How fast an unknown goes with the part and the start; lengths of starts are in program units. */
function moved(u: Unknown, axis: number, perMm: number): number {
  if (isTouched(u)) return u.axis === axis ? 1 : 0;
  return u.key.startsWith(`g:start:${'XY'[axis]}:`) ? perMm : 0;
}

/** A number, an origin, the start, or a touch in X or Y that goes along with the start on the other of the two. */
function isPlaced(u: Unknown, around: Surroundings, depth = 0): boolean {
  if (u.kind === 'literal' || u.kind === 'diameter') return true;
  if (u.kind === 'given')
    return u.touches.length === 0 && /^g:(start:[XY]|input:5[23]\d\d|origin|beside):/.test(u.key);
  if (!isTouched(u) || u.axis > 1 || depth > deepest) return false;
  const place = around.made.get(u.touch)?.from[1 - u.axis] ?? 0;
  if (typeof place === 'number' || !place.terms.every(({ unknown }) => isPlaced(unknown, around, depth + 1)))
    return false;
  const share = (axis: number) =>
    place.terms.reduce((sum, term) => sum + term.coefficient * moved(term.unknown, axis, around.perMm), 0);
  return Math.abs(share(1 - u.axis) - 1) < 1e-9 && Math.abs(share(u.axis)) < 1e-9;
}

const deepest = 12;

/** Where an unknown lies by a guess: mm for touches and literals, else in program units. */
function placeOf(u: Unknown, guess: Guess, around: Sight, depth: number): number | null {
  switch (u.kind) {
    case 'literal':
      return u.value;
    case 'diameter':
      return guessedDiameter;
    case 'given':
      return u.touches.length > 0 ? null : 40 * around.perMm * drawn(u.key, guess.seed);
    case 'latched':
    case 'stopped': {
      const made = around.made.get(u.touch);
      if (!made || depth > deepest) return null;
      const along = (other: Unknown): Slope | null => {
        const at = placeOf(other, guess, around, depth + 1);
        return at === null ? null : { at, by: 0 };
      };
      const from = slopeOf(made.from[u.axis] ?? 0, along, around.dialect);
      const to = slopeOf(made.to[u.axis] ?? 0, along, around.dialect);
      if (from === null || to === null) return null;
      return (
        from.at + guess.share * (to.at - from.at) + guess.off * drawn(`${u.touch}:${u.axis}`, guess.seed)
      );
    }
    default:
      return null;
  }
}

/** −1 to 1, the same for the same key and seed. */
function drawn(key: string, seed: number): number {
  let hash = 0x811c9dc5 ^ seed;
  for (let i = 0; i < key.length; i++) hash = Math.imul(hash ^ key.charCodeAt(i), 0x01000193);
  hash = Math.imul(hash ^ (hash >>> 15), 0x85ebca6b);
  return ((hash ^ (hash >>> 13)) >>> 0) / 2 ** 31 - 1;
}
