import type { Part } from './part.ts';
import type { Path } from './path.ts';
import type { Point } from './solid.ts';

/** How near a contact is found along the path, mm, where the path does not graze the surface. */
export const contactWithin = 1e-11;
const mostSteps = 400;

/**
 * Where along the path a ball, its centre on the path, first meets the part: mm from the path's start, at or behind `from`;
 * null: nowhere. Each step is as long as the free way around the ball, which can't jump over anything.
 */
export function firstContact(part: Part, path: Path, radius: number, from = 0): number | null {
  return trace(path, from, (x, y, z) => part.distanceTo(x, y, z).distance - radius);
}

/** Where a ball that stands in contact leaves the part; null: it does not on this path. */
export function lastContact(part: Part, path: Path, radius: number, from = 0): number | null {
  return trace(path, from, (x, y, z) => radius - part.distanceTo(x, y, z).distance);
}

/**
 * Where an upright stem first meets the part, at or behind `from`: a round rod from the path's point up to `height` above
 * it. Its ends are round, which only the ball below and the spindle above come near.
 */
export function stemContact(part: Part, path: Path, radius: number, height: number, from = 0): number | null {
  if (height <= 0) return null;
  return trace(path, from, (x, y, z) => part.clearanceOf(x, y, z, z + height).distance - radius);
}

/** Unit vector from the ball's centre to the nearest place of the part, and that place; null where there is no part. */
export function contactAt(
  part: Part,
  x: number,
  y: number,
  z: number,
): {
  readonly normal: Point;
  readonly point: Point;
  readonly solid: number;
  readonly distance: number;
} | null {
  const near = part.distanceTo(x, y, z);
  if (!Number.isFinite(near.distance) || near.distance === 0) return null;
  const scale = 1 / near.distance;
  const solid = near.solid >= 0 ? near.solid : part.materialAt(near.x, near.y, near.z);
  return {
    normal: [(near.x - x) * scale, (near.y - y) * scale, (near.z - z) * scale],
    point: [near.x, near.y, near.z],
    solid,
    distance: near.distance,
  };
}

/**
 * The first place where `gap` comes down to nothing; gap changes by no more than the way made. A path that comes ever nearer
 * without meeting (it grazes) is followed in fixed short steps after many small ones.
 */
function trace(path: Path, from: number, gap: (x: number, y: number, z: number) => number): number | null {
  const { length } = path;
  // What is free round the path's end need not be stepped through, as on the way back from a wall to the middle.
  const clear = gapAt(path, length, gap);
  const last = clear > 0 ? length - clear : length;
  let at = from;
  for (let steps = 0; ; steps++) {
    const free = gapAt(path, at, gap);
    // Not a number: no surface can be told from here.
    if (!(free > contactWithin)) return Number.isNaN(free) ? null : at;
    // Within the free way nothing is met up to where the end's own begins.
    if (free > last - at) return null;
    const least = steps < mostSteps ? 0 : length / 2000;
    if (free < least && at + least <= length) {
      const met = narrowed(path, at, at + least, gap);
      if (met !== null) return met;
    }
    at = Math.min(length, at + Math.max(free, least));
  }
}

/** By halving, where the gap is gone at the far end. */
function narrowed(
  path: Path,
  from: number,
  to: number,
  gap: (x: number, y: number, z: number) => number,
): number | null {
  if (gapAt(path, to, gap) > contactWithin) return null;
  let [low, high] = [from, to];
  while (high - low > contactWithin) {
    const middle = (low + high) / 2;
    if (gapAt(path, middle, gap) > contactWithin) low = middle;
    else high = middle;
  }
  return high;
}

function gapAt(path: Path, s: number, gap: (x: number, y: number, z: number) => number): number {
  const [x = 0, y = 0, z = 0] = path.at(s);
  return gap(x, y, z);
}
