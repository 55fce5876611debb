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

/** A block whose upright face lies `at` from the start in this direction, and all of it beyond. */
export function blockBeyond(at: number, degrees: number, top: number): Solid {
  const angle = (degrees * Math.PI) / 180;
  const middle = at + longSide;
  const [x, y] = [middle * Math.cos(angle), middle * Math.sin(angle)];
  return {
    role: 'add',
    outline: { kind: 'rectangle', x, y, halfX: longSide, halfY: longSide, angle },
    ...heights(top),
  };
}

/** A block with its corner at the start; it lies where `into` points. */
export function cornerBlock(into: readonly [1 | -1, 1 | -1], top: number): Solid {
  const [x, y] = [into[0] * longSide, into[1] * longSide];
  return {
    role: 'add',
    outline: { kind: 'rectangle', x, y, halfX: longSide, halfY: longSide, angle: 0 },
    ...heights(top),
  };
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

function heights(top: number): { readonly bottom: number; readonly top: number } {
  return { bottom: top - 400, top };
}
