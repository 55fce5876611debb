/** An arc as its block writes it, in the two axes of its plane (first, second: XY, ZX or YZ). */
export interface ArcWords {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  readonly clockwise: boolean;
  /** R of the radius format; null for the centre format. */
  readonly radius: number | null;
  /** Centre from the start of the arc; null where neither centre word stands. */
  readonly centre: readonly [number, number] | null;
  /** Turns of the P word; 1 goes round less than once, or once where the arc ends where it began. */
  readonly turns: number;
}

export interface ArcGeometry {
  readonly centre: readonly [number, number];
  readonly radius: number;
  /** Radians from start to end; positive counter-clockwise. */
  readonly sweep: number;
}

export type ArcFault =
  | 'arc-without-centre'
  | 'arc-zero-radius'
  | 'arc-radius-mismatch'
  | 'arc-radius-too-small'
  | 'arc-ends-at-start';

/**
 * Where an arc runs (NISTIR 6556, 3.5.3). `tolerance`, in the unit of the words, is the greatest difference between the
 * radii at start and end in the centre format.
 */
export function arcGeometry(words: ArcWords, tolerance: number): ArcGeometry | ArcFault {
  if (words.radius !== null) return radiusFormat(words, words.radius, tolerance);
  if (words.centre === null) return 'arc-without-centre';
  const centre: [number, number] = [words.from[0] + words.centre[0], words.from[1] + words.centre[1]];
  const radius = distance(centre, words.from);
  if (radius === 0) return 'arc-zero-radius';
  if (Math.abs(radius - distance(centre, words.to)) > tolerance + 1e-9) return 'arc-radius-mismatch';
  return { centre, radius, sweep: sweepOf(words, centre) };
}

/** R > 0 turns by at most half a turn, R < 0 by at least that (3.5.3.1). */
function radiusFormat(words: ArcWords, r: number, tolerance: number): ArcGeometry | ArcFault {
  const chord = distance(words.from, words.to);
  if (r === 0) return 'arc-zero-radius';
  if (chord === 0) return 'arc-ends-at-start';
  const radius = Math.abs(r);
  if (chord / 2 > radius + tolerance) return 'arc-radius-too-small';
  const height = Math.sqrt(Math.max(0, radius * radius - (chord * chord) / 4));
  const side = words.clockwise === r > 0 ? -1 : 1;
  const [dx, dy] = [(words.to[0] - words.from[0]) / chord, (words.to[1] - words.from[1]) / chord];
  const centre: [number, number] = [
    (words.from[0] + words.to[0]) / 2 - side * height * dy,
    (words.from[1] + words.to[1]) / 2 + side * height * dx,
  ];
  return { centre, radius: Math.max(radius, chord / 2), sweep: sweepOf(words, centre) };
}

function sweepOf({ from, to, clockwise, turns }: ArcWords, centre: readonly [number, number]): number {
  const start = Math.atan2(from[1] - centre[1], from[0] - centre[0]);
  const end = Math.atan2(to[1] - centre[1], to[0] - centre[0]);
  const turn = 2 * Math.PI;
  const closed = distance(from, to) < 1e-9;
  const counterClockwise = closed ? 0 : (((end - start) % turn) + turn) % turn;
  const once = clockwise
    ? counterClockwise < 1e-12
      ? -turn
      : counterClockwise - turn
    : counterClockwise < 1e-12
      ? turn
      : counterClockwise;
  return once + Math.sign(once) * turn * (turns - 1);
}

function distance(a: readonly [number, number], b: readonly [number, number]): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}
