/** One touch of a reference: mm, mm/s, degrees. */
export interface CalibrationTouch {
  /** Line of the file that it stands on, 1-based: what reports name it by. */
  readonly row: number;
  /** Commanded direction of approach, degrees from X+ counter-clockwise seen from +Z. */
  readonly direction: number;
  /** Latched stylus centre. */
  readonly x: number;
  readonly y: number;
  /** null: not stated; then for no touch of the set. */
  readonly speed: number | null;
  /** Spindle angle, counter-clockwise seen from +Z; null: not stated; then for no touch of the set. */
  readonly spindle: number | null;
}

/** Round references by their diameter, flat ones (two parallel faces) by their width; touched from inside: ring and gap. */
export type ReferenceKind = 'ring' | 'plug' | 'gap' | 'block';

export interface Reference<Kind extends ReferenceKind | 'sphere' = ReferenceKind> {
  readonly kind: Kind;
  /** Diameter or width, mm. */
  readonly size: number;
  /** Of the size, k = 2, form included, mm. */
  readonly expandedUncertainty: number;
}

/** One standard deviation of a touch and its degrees of freedom; null = infinite. */
export interface Spread {
  readonly standardDeviation: number;
  readonly degreesOfFreedom: number | null;
}

/** ±size/2 of the one equation for all: + where the probe touches from inside, − where from outside (`error-model.md` section 3). */
export function signedHalf({ kind, size }: Reference<ReferenceKind | 'sphere'>): number {
  return kind === 'ring' || kind === 'gap' ? size / 2 : -size / 2;
}

export const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** In [0, 360). */
export function degrees(angle: number): number {
  const turned = (angle * 180) / Math.PI;
  return ((turned % 360) + 360) % 360;
}

/** Size of the turn between two directions, 0 to π. */
export function angleBetween(a: number, b: number): number {
  return Math.abs(Math.atan2(Math.sin(a - b), Math.cos(a - b)));
}
