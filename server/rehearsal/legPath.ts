import { arc, line, type Path } from '../part/path.ts';
import type { Point } from '../part/solid.ts';
import type { Leg } from '../program/world.ts';
import { onMachine, type ZeroPoint } from './zeroPoint.ts';

/**
 * The way of a piece of a motion on the machine, moved down by `down` along Z to the place that is looked at (the ball's
 * centre). null: an arc out of the plane of the turned work offset.
 */
export function legPath(
  leg: Leg & { readonly to: readonly number[] },
  from: readonly number[],
  zero: ZeroPoint,
  down: number,
): Path | null {
  const at = (work: readonly number[]): Point => {
    const [x, y, z] = onMachine(zero, work);
    return [x, y, z - down];
  };
  const [start, end] = [at(from), at(leg.to)];
  if (leg.kind !== 'arc') return line(start, end);
  const [a, b] = leg.plane;
  const c = 3 - a - b;
  if (c !== 2 && zero.sin !== 0) return null;
  const middle = [...from];
  [middle[a], middle[b]] = leg.centre;
  const centre = at(middle);
  const endRadius = Math.hypot((end[a] ?? 0) - (centre[a] ?? 0), (end[b] ?? 0) - (centre[b] ?? 0));
  return arc({
    from: start,
    axes: [a, b, c],
    centre: [centre[a] ?? 0, centre[b] ?? 0],
    turn: leg.sweep,
    endRadius,
    rise: (end[c] ?? 0) - (start[c] ?? 0),
  });
}
