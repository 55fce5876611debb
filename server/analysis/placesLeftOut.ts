import { activeOffset } from '../program/parameters.ts';
import type { State } from '../program/state.ts';
import type { OffsetWrite } from '../program/world.ts';
import type { PlaceLeftOut } from './record.ts';

/**
 * G10 L2 of a plain number to the work offset in force, while the axis stands at a place that was computed of touches along
 * it: where the axis stands does not enter. null where it is none of that.
 */
export function placeLeftOut(write: OffsetWrite, state: State): PlaceLeftOut | null {
  const { place, axis, system, form, origin } = write;
  if (form !== 'G10 L2' || typeof origin !== 'number') return null;
  if (system !== activeOffset(state)) return null;
  const stands = state.position[axis];
  if (stands === undefined || typeof stands === 'number') return null;
  let share = 0;
  let isComputed = false;
  const touches: number[] = [];
  for (const { unknown, coefficient } of stands.terms) {
    if (unknown.kind === 'literal') continue;
    // Paths that met, or an earlier pass of a loop, have left a place that touches gave.
    if (unknown.kind === 'given' && unknown.touches.length > 0 && stands.terms.length === 1) {
      touches.push(...unknown.touches);
      share += coefficient;
      isComputed = true;
      continue;
    }
    if ((unknown.kind !== 'latched' && unknown.kind !== 'stopped') || unknown.axis !== axis) return null;
    share += coefficient;
    isComputed ||= unknown.kind === 'latched';
    touches.push(unknown.touch);
  }
  return isComputed && Math.abs(share - 1) < 1e-6 ? { place, axis, touches } : null;
}
