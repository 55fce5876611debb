import type { Solid } from '../part/solid.ts';

/**
 * The feature where the routine expects it, for the setup of its rehearsal: mm, from where the tip (the lowest point of
 * its ball) stands at the start.
 */
export interface NominalPart {
  readonly solids: readonly Solid[];
  /** What the work offset that is written must come to. */
  readonly places: readonly Place[];
  /** Results that do not depend on where the part stands: mm or degrees, by name. */
  readonly results: Readonly<Record<string, number>>;
  /** How far from the middle about which the part may be turned a touch lies at most, mm; absent: it does not matter. */
  readonly reach?: number;
}

/** A plane through the feature, across `direction`, and the coordinate along it that it is to get. */
export interface Place {
  readonly direction: readonly [number, number, number];
  readonly at: number;
  readonly becomes: number;
}

/** How much material lies around and below what is touched. */
const around = 60;

/** An upright block round the start, its sides `halfX` and `halfY` away. */
export function block(halfX: number, halfY: number, top: number, degrees = 0): Solid {
  return rectangle('add', halfX, halfY, top, degrees);
}

/** A block with room around an opening of this size. */
export function plateAround(halfX: number, halfY: number, top: number, degrees = 0): Solid {
  return block(halfX + around, halfY + around, top, degrees);
}

/** Cut out of a plate, right through. */
export function pocket(halfX: number, halfY: number, top: number, degrees = 0): Solid {
  return rectangle('cut', halfX, halfY, top, degrees);
}

/** A block whose upright face lies `at` from the start in this direction, and all of it beyond; `side` is half its width. */
export function blockBeyond(at: number, degrees: number, top: number, side = longSide): Solid {
  const angle = (degrees * Math.PI) / 180;
  const middle = at + side;
  const [x, y] = [middle * Math.cos(angle), middle * Math.sin(angle)];
  return {
    role: 'add',
    outline: { kind: 'rectangle', x, y, halfX: side, halfY: side, angle },
    ...heights(top),
  };
}

/** A block with its corner at the start; it lies where `into` points, and the touches on it reach so far from the corner. */
export function cornerBlock(into: readonly [1 | -1, 1 | -1], top: number, reach: number): Solid {
  const side = reach / 2 + around;
  return square('add', into[0] * side, into[1] * side, side, top);
}

/** Two walls that meet `inset` from the start where `towards` points; the touches on them reach so far from the corner. */
export function insideCornerSolids(
  towards: readonly [1 | -1, 1 | -1],
  inset: number,
  reach: number,
  top: number,
): readonly Solid[] {
  const side = reach / 2 + around;
  const [x, y] = [towards[0] * (inset - side), towards[1] * (inset - side)];
  return [square('add', x, y, side + around, top), square('cut', x, y, side, top)];
}

/** An upright cylinder, or a hole right through. */
export function round(role: Solid['role'], diameter: number, top: number): Solid {
  return { role, outline: { kind: 'circle', x: 0, y: 0, radius: diameter / 2 }, ...heights(top) };
}

/** Beside the direction, as far as a wall must reach for what is off its place. */
export const longSide = 2500;

export const placeAlong = (axis: 'x' | 'y' | 'z', at: number, becomes: number): Place => ({
  direction: [axis === 'x' ? 1 : 0, axis === 'y' ? 1 : 0, axis === 'z' ? 1 : 0],
  at,
  becomes,
});

function rectangle(role: Solid['role'], halfX: number, halfY: number, top: number, degrees: number): Solid {
  const angle = (degrees * Math.PI) / 180;
  return { role, outline: { kind: 'rectangle', x: 0, y: 0, halfX, halfY, angle }, ...heights(top) };
}

function square(role: Solid['role'], x: number, y: number, side: number, top: number): Solid {
  return { role, outline: { kind: 'rectangle', x, y, halfX: side, halfY: side, angle: 0 }, ...heights(top) };
}

function heights(top: number): { readonly bottom: number; readonly top: number } {
  return { bottom: top - 400, top };
}
