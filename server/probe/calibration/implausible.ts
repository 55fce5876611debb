import { leastSquares } from './leastSquares.ts';
import {
  angleBetween,
  type CalibrationTouch,
  type Reference,
  type ReferenceKind,
  radians,
  signedHalf,
} from './touches.ts';

/** What is wrong with a set of touches as a whole; lengths in mm. */
export type Implausible =
  /** The stylus centres stand on one line, or in one place. */
  | { readonly kind: 'collinear' }
  /** Directions make sense when read in another way. */
  | { readonly kind: 'directions'; readonly reading: Reading }
  /** The stylus stood opposite to every direction: the other kind of reference. */
  | { readonly kind: 'other-kind' }
  | { readonly kind: 'rows'; readonly rows: readonly WrongDirection[] }
  | { readonly kind: 'no-sense' }
  /** The radius that follows cannot be that of this tip. */
  | {
      readonly kind: 'size';
      /** Effective radius that would follow. */
      readonly radius: number;
      /** Reference size that the touches and the tip point to; null: the tip is not known. */
      readonly expected: number | null;
      readonly cure: SizeCure | null;
    };

export type Reading =
  | { readonly as: 'radians' }
  | { readonly as: 'clockwise' }
  | { readonly as: 'swapped' }
  | { readonly as: 'turned'; readonly degrees: number };

/** Which number is in the other unit; `inch`: it is in inches where mm are said. */
export interface SizeCure {
  readonly what: 'reference' | 'tip' | 'coordinates';
  readonly is: 'inch' | 'mm';
}

export interface WrongDirection {
  readonly row: number;
  /** Where the stylus stood against the middle of the others, as a direction of approach, radians. */
  readonly seen: number;
}

/** Farther off than this from where the stylus stood, a direction is not the one that was touched in. */
const off = radians(45);
/** Nearer than this in every touch, another reading is the right one. */
const near = radians(30);

/**
 * What makes directions and coordinates of touches on a ring or a plug impossible together; null: nothing. The places of
 * the stylus centre are looked at without the directions: their circle, and from its centre the directions they stand in.
 */
export function implausibleDirections(
  touches: readonly CalibrationTouch[],
  reference: Reference,
): Implausible | null {
  const centre = middleOf(touches);
  if (centre === null) return { kind: 'collinear' };
  const outwards = signedHalf(reference) > 0;
  const seen = touches.map(({ x, y }) =>
    outwards ? Math.atan2(y - centre.y, x - centre.x) : Math.atan2(centre.y - y, centre.x - x),
  );
  const said = touches.map(({ direction }) => direction);
  const misfits = said.map((direction, index) => angleBetween(radians(direction), seen[index] ?? 0));
  if (misfits.every((misfit) => misfit <= off)) return null;
  const reading = otherReading(said, seen);
  if (reading !== null) return reading;
  const wrong = misfits.flatMap((misfit, index) =>
    misfit > off ? [{ row: touches[index]?.row ?? 0, seen: seen[index] ?? 0 }] : [],
  );
  return wrong.length * 3 <= touches.length ? { kind: 'rows', rows: wrong } : { kind: 'no-sense' };
}

function otherReading(said: readonly number[], seen: readonly number[]): Implausible | null {
  const agrees = (read: (direction: number) => number) =>
    said.every((direction, index) => angleBetween(read(direction), seen[index] ?? 0) <= near);
  if (agrees((direction) => radians(direction) + Math.PI)) return { kind: 'other-kind' };
  const small = said.every((direction) => Math.abs(direction) <= 2 * Math.PI + 1e-6);
  if (small && agrees((direction) => direction)) return { kind: 'directions', reading: { as: 'radians' } };
  if (agrees((direction) => -radians(direction))) return { kind: 'directions', reading: { as: 'clockwise' } };
  if (agrees((direction) => Math.PI / 2 - radians(direction)))
    return { kind: 'directions', reading: { as: 'swapped' } };
  const turn = commonTurn(said, seen);
  if (agrees((direction) => radians(direction) + turn))
    return { kind: 'directions', reading: { as: 'turned', degrees: (turn * 180) / Math.PI } };
  return null;
}

/** Mean of the turn from what is said to what is seen, radians. */
function commonTurn(said: readonly number[], seen: readonly number[]): number {
  let [x, y] = [0, 0];
  for (const [index, direction] of said.entries()) {
    const turn = (seen[index] ?? 0) - radians(direction);
    x += Math.cos(turn);
    y += Math.sin(turn);
  }
  return Math.atan2(y, x);
}

/** Centre of the circle x² + y² = a·x + b·y + c nearest to the stylus centres; null: they stand on a line. */
function middleOf(touches: readonly CalibrationTouch[]): { readonly x: number; readonly y: number } | null {
  const count = touches.length;
  const [meanX, meanY] = [sum(touches.map(({ x }) => x)) / count, sum(touches.map(({ y }) => y)) / count];
  const places = touches.map(({ x, y }) => ({ x: x - meanX, y: y - meanY }));
  if (spreadAcross(places) < 1e-3) return null;
  const { parameters } = leastSquares(
    places.map(({ x, y }) => [x, y, 1]),
    places.map(({ x, y }) => x * x + y * y),
  );
  return { x: meanX + (parameters[0] ?? 0) / 2, y: meanY + (parameters[1] ?? 0) / 2 };
}

/** Spread across the line of best fit over that along it. */
function spreadAcross(places: readonly { readonly x: number; readonly y: number }[]): number {
  const xx = sum(places.map(({ x }) => x * x));
  const yy = sum(places.map(({ y }) => y * y));
  const xy = sum(places.map(({ x, y }) => x * y));
  const middle = (xx + yy) / 2;
  const reach = Math.hypot((xx - yy) / 2, xy);
  if (middle + reach < 1e-12) return 0;
  return Math.sqrt(Math.max(0, middle - reach) / (middle + reach));
}

/** Of the radius of an unknown tip over the size of what it moves about in: with more it has hardly a way to go. */
const largestInside = 0.45;

/**
 * Whether an effective radius can belong to this tip and reference; null where it can. Pre-travel is micrometres to
 * hundredths of a millimetre, so a radius off by a fifth, or above the actual one by a twentieth, has another cause.
 */
export function implausibleSize(
  radius: number,
  reference: Reference<ReferenceKind | 'sphere'>,
  tipDiameter: number | null,
): Implausible | null {
  const half = signedHalf(reference);
  const tip = tipDiameter === null ? null : tipDiameter / 2;
  const most = half > 0 ? largestInside * reference.size : reference.size;
  const possible = (found: number, actual: number | null) =>
    actual === null ? found > 0 && found < most : found >= 0.8 * actual && found <= 1.05 * actual;
  if (possible(radius, tip)) return null;
  const sign = Math.sign(half);
  return {
    kind: 'size',
    radius,
    expected: tip === null ? null : reference.size + 2 * sign * (tip - radius),
    cure: tip === null ? null : cureOf(radius, half, tip, possible),
  };
}

function cureOf(
  radius: number,
  half: number,
  tip: number,
  possible: (found: number, actual: number) => boolean,
): SizeCure | null {
  const [inch, travelled] = [25.4, half - radius];
  for (const [is, factor] of [
    ['inch', inch],
    ['mm', 1 / inch],
  ] as const) {
    if (possible(half * factor - travelled, tip)) return { what: 'reference', is };
    if (possible(radius, tip * factor)) return { what: 'tip', is };
    if (possible(half - travelled * factor, tip)) return { what: 'coordinates', is };
  }
  return null;
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
