import { SVD } from 'ml-matrix';
import type { Refusal } from './fit.ts';

/** Points about their middle (the mean of each coordinate), in units of their spread: fits work on these, so that neither an offset nor a unit matters. */
export interface Gathered {
  /** (p − middle) / scale. */
  readonly points: readonly (readonly number[])[];
  readonly middle: readonly number[];
  /** Root mean square distance from the middle. */
  readonly scale: number;
  /** Principal directions, widest first, and the root mean square extent along each, in units of `scale`. */
  readonly directions: readonly (readonly number[])[];
  readonly extents: readonly number[];
  /** What rounding of the coordinates may leave of an extent. */
  readonly rounding: number;
}

/**
 * Gathers points of `dimension` coordinates, or says in a sentence why they are none to fit `what` to: too few, not finite, or
 * all in one place.
 */
export function gather(
  given: readonly (readonly number[])[],
  dimension: number,
  least: number,
  what: string,
): Gathered | Refusal {
  if (given.length < least)
    return {
      refusal: `${what} needs at least ${least} points; there ${given.length === 1 ? 'is' : 'are'} ${given.length}.`,
    };
  if (given.length > mostPoints)
    return {
      refusal: `${what} is fitted to at most ${mostPoints} points; there are ${given.length}. Thin them out.`,
    };
  const odd = given.findIndex((point) => point.length !== dimension || !point.every(isCoordinate));
  if (odd >= 0) return { refusal: `Point ${odd + 1} has a coordinate that is no number.` };
  const middle = Array.from({ length: dimension }, (_, axis) => mean(given.map((point) => point[axis] ?? 0)));
  const centred = given.map((point) => point.map((value, axis) => value - (middle[axis] ?? 0)));
  const scale = Math.sqrt(mean(centred.map((point) => point.reduce((sum, value) => sum + value * value, 0))));
  const largest = given.reduce((most, point) => Math.max(most, ...point.map(Math.abs)), 0);
  const rounding = (8 * Number.EPSILON * largest) / scale;
  if (!(scale > 0) || rounding > 1e-3) return { refusal: `The ${given.length} points lie in one place.` };
  const points = centred.map((point) => point.map((value) => value / scale));
  return { points, middle, scale, rounding, ...principal(points, dimension) };
}

/** The points' spread in their narrowest directions is not more than this: they lie on a line or in a plane. */
export function isFlat({ extents, rounding }: Gathered, direction: number): boolean {
  return (extents[direction] ?? 0) <= Math.max(1e-7, 4 * rounding);
}

/** More would take minutes; touches are tens. */
const mostPoints = 5000;

/** Beyond this, squares overflow. */
const isCoordinate = (value: number): boolean => Math.abs(value) < 1e100;

function principal(
  points: readonly (readonly number[])[],
  dimension: number,
): { directions: number[][]; extents: number[] } {
  // Rows of zeros change nothing and let two points span three dimensions.
  const rows = [...points.map((point) => [...point])];
  while (rows.length < dimension) rows.push(new Array(dimension).fill(0));
  const { diagonal, rightSingularVectors } = new SVD(rows);
  return {
    directions: diagonal.map((_, column) => rightSingularVectors.getColumn(column)),
    extents: diagonal.map((value) => value / Math.sqrt(points.length)),
  };
}

function mean(values: readonly number[]): number {
  const first = values[0] ?? 0;
  // Differences to one of them keep the digits that a large offset would take.
  return first + values.reduce((sum, value) => sum + (value - first), 0) / values.length;
}
