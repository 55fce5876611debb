import { onlyCode } from '../program/modes.ts';
import type { State } from '../program/state.ts';
import { isNumber } from '../program/value.ts';
import type { TouchRequest } from '../program/world.ts';

/** NISTIR 6556, 3.5.9.1: a touch that starts nearer than this to its end is an error, mm. */
const leastTravel = 0.254;

/**
 * Why a control does not begin a touch (NISTIR 6556, 3.5.9.1 and 4.3.6.6; a skip move is asked less); null: it does.
 * `unit`: mm of one program unit.
 */
export function touchRefusal(
  { code, axes }: TouchRequest,
  from: readonly number[],
  to: readonly number[],
  unit: number,
  { feed, modes }: State,
): string | null {
  if (!isNumber(feed.value)) return 'a touch without a feed per minute';
  if (!(feed.value > 0)) return 'a touch at a feed of zero';
  if (!axes.some((axis) => axis < 3)) return 'a touch that names none of X, Y and Z';
  const travel = unit * Math.hypot(...[0, 1, 2].map((i) => (to[i] ?? 0) - (from[i] ?? 0)));
  if (code === 'G31') return travel > 0 ? null : 'a touch without a way to go';
  if (travel < leastTravel - 1e-9) return `a touch of less than ${leastTravel} mm`;
  if (from.some((v, i) => i > 2 && i < 6 && v !== to[i])) return 'a touch that turns a rotary axis';
  const spindle = onlyCode('spindle', modes.spindle);
  if (spindle === 'M3' || spindle === 'M4') return 'a touch while the spindle turns';
  const compensation = onlyCode('cutterCompensation', modes.cutterCompensation);
  return compensation !== null && compensation !== 'G40' ? 'a touch with cutter compensation on' : null;
}
