import { single, type Unknown, type Value } from '../program/value.ts';
import type { Guess, Surroundings } from './near.ts';

/** Where on a face that touches gave a slope to a value is taken, mm: along the axis of the touches, and across it. */
export interface FaceSpot {
  readonly along: number;
  readonly across: number;
}

/** What tells a face's spot: the value's slopes by its unknowns, and where those and the touches' starts lie. */
export interface SeenBy {
  readonly slopeBy: (unknown: Unknown) => number | null;
  readonly at: (value: Value, guess: Guess) => number | null;
}

const rounding = 1e-6;

/**
 * The point of a straight face that a value stands for, where it is no touch's own and no mean: a value that follows the
 * part as Σ c_i·m_i, with Σ c_i = 1, is what the line through the touches has at Σ c_i·(their other coordinate): geometry of
 * a line. null where the value is none of that, or the face does not lie along the other axis by the guess.
 */
export function faceSpot(
  unknowns: readonly Unknown[],
  guess: Guess,
  { axis, made }: Pick<Surroundings, 'axis' | 'made'>,
  { slopeBy, at }: SeenBy,
): FaceSpot | null {
  const shares: { share: number; along: number; across: number }[] = [];
  for (const u of unknowns) {
    if ((u.kind !== 'latched' && u.kind !== 'stopped') || u.axis !== axis) continue;
    const share = slopeBy(u);
    const start = made.get(u.touch)?.from[1 - axis];
    const along = at(single(u), guess);
    const across = start === undefined ? null : at(start, guess);
    if (share === null || along === null || across === null) return null;
    if (Math.abs(share) > rounding) shares.push({ share, along, across });
  }
  const [first] = shares;
  if (!first || Math.abs(sumOf(shares, () => 1) - 1) > rounding) return null;
  if (shares.every(({ share }) => Math.abs(share - first.share) <= rounding)) return null;
  if (shares.some(({ along }) => Math.abs(along - first.along) > rounding)) return null;
  return { along: first.along, across: sumOf(shares, ({ across }) => across) };
}

function sumOf<T extends { readonly share: number }>(shares: readonly T[], of: (one: T) => number): number {
  return shares.reduce((sum, one) => sum + one.share * of(one), 0);
}
