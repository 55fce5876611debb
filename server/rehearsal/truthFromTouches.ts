import { axesJudged, type Expectation } from './expectations.ts';
import type { RunRecord, TouchRecord } from './runRecord.ts';

/** How near a datum must come to what was touched where the setup does not say, mm. */
export const unstatedTolerance = 0.05;

/**
 * What a datum should come to where the setup expects nothing of it, by the part that the undisturbed run met: half-way
 * between two faces (or the sides of a bore) that were touched from opposite ways along its axis, else the face that was
 * touched last. A datum farther away than a missing or doubled radius could put it was meant to lie elsewhere: it can't
 * be judged. In Z the length of the tool belongs to the datum where it is not in force.
 */
export function truthFromTouches(
  record: RunRecord,
  stated: readonly Expectation[],
  tipDiameter: number,
): Expectation[] {
  const known = new Set(stated.flatMap(axesJudged));
  const found = new Map<string, Expectation>();
  for (const { key, value, touches, lengthLeftOut } of record.written) {
    const axis = 'xyz'.indexOf(key.slice(-1));
    if (touches === 0 || axis < 0 || known.has(key) || !/^G5\d/.test(key)) continue;
    const place = touchedPlace(record.touches.slice(0, touches), axis as 0 | 1 | 2);
    const met = place === null ? null : place + (axis === 2 ? lengthLeftOut : 0);
    if (met === null || Math.abs(value - met) > 1.1 * tipDiameter) found.delete(key);
    else found.set(key, { key, value: met, tolerance: unstatedTolerance });
  }
  return [...found.values()];
}

function touchedPlace(touches: readonly TouchRecord[], axis: 0 | 1 | 2): number | null {
  const along = touches.filter(
    ({ direction, surface, tripped }) => tripped && surface !== null && Math.abs(direction[axis]) > 0.99,
  );
  const last = along.at(-1);
  if (!last?.surface) return null;
  const opposite = along.findLast(({ direction }) => direction[axis] * last.direction[axis] < 0);
  return opposite?.surface ? (last.surface[axis] + opposite.surface[axis]) / 2 : last.surface[axis];
}
