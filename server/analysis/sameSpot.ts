import { scale, subtract, withLiterals } from '../program/value.ts';
import type { TouchRequest } from '../program/world.ts';
import type { Flowing, Made } from './flowing.ts';
import { isLatch } from './latch.ts';

type Direction = readonly [number, number, number];

/**
 * The touch just before, where it may have met the same spot: the same approach from the same place across it.
 * 'unknown' where it can't be told which touch came before; null where there was none, or one that met another spot.
 */
export function neighbourOf(
  request: TouchRequest,
  direction: Direction | null,
  { latch, made }: Flowing,
  perMm: number,
): number | 'unknown' | null {
  if (latch === 'none') return null;
  const before = isLatch(latch) ? made.get(latch.touch) : undefined;
  if (!isLatch(latch) || !before) return 'unknown';
  return isElsewhere(request, direction, before, perMm) ? null : latch.touch;
}

function isElsewhere(
  { from, axes }: TouchRequest,
  direction: Direction | null,
  before: Made,
  perMm: number,
): boolean {
  if (direction && before.direction) {
    if (direction.reduce((sum, n, i) => sum + n * (before.direction?.[i] ?? 0), 0) < 0.99) return true;
  } else if (before.axis !== null && axes.every((i) => i > 2 || i !== before.axis)) return true;
  return [0, 1, 2].some((i) => {
    if (axes.includes(i)) return false;
    const apart = subtract(scale(from[i] ?? 0, 1 / perMm), before.from[i] ?? 0);
    const known = withLiterals(apart);
    return typeof known === 'number' && Math.abs(known) > 1e-6;
  });
}
