import {
  replaceUnknowns,
  scale,
  single,
  subtract,
  type Unknown,
  type Value,
  withLiterals,
} from '../program/value.ts';
import type { Motion } from '../program/world.ts';
import { rangesOf } from './approach.ts';
import type { Made } from './flowing.ts';
import type { Departure } from './model.ts';

type Moved = Pick<Motion, 'kind' | 'from' | 'to' | 'axes'>;
type Direction = readonly [number, number, number];

/**
 * What a motion is to the surface that a touch has left the tip on: its component along the approach n, in mm.
 * Where n is not known, the one `axis` of the touch still tells a motion along the surface. Absolute targets are judged against the start and the end of
 * the touch's travel, between which the surface lies, and these by those of earlier touches.
 */
export function judgeMotion(
  motion: Moved,
  touch: number,
  n: Direction | null,
  axis: number | null,
  all: ReadonlyMap<number, Made>,
  perMillimetre: number,
): Pick<Departure, 'kind' | 'component'> {
  if (motion.kind === 'machine-coordinates' || motion.kind === 'reference') return judgeMachine(motion, n);
  if (motion.kind === 'unknown' || !motion.axes.some((i) => i < 3))
    return { kind: 'unknown', component: null };
  if (n === null) {
    const along = axis !== null && displacement(motion, axis, touch, perMillimetre) === 0;
    return along ? { kind: 'sideways', component: 0 } : { kind: 'unknown', component: null };
  }
  let component = 0;
  let side: 'out' | 'in' | null = null;
  for (const i of [0, 1, 2] as const) {
    if (Math.abs(n[i]) < 1e-9) continue;
    const moved = displacement(motion, i, touch, perMillimetre);
    if (moved !== null) {
      component += moved * n[i];
      continue;
    }
    const bound = boundedSide(motion, i, n[i], touch, all, perMillimetre);
    if (bound === null || (side !== null && side !== bound)) return { kind: 'unknown', component: null };
    side = bound;
  }
  if (side === 'out' && component <= 1e-9) return { kind: 'retract', component: null };
  if (side === 'in' && component >= -1e-9) return { kind: 'further-in', component: null };
  if (side !== null) return { kind: 'unknown', component: null };
  if (component < -1e-9) return { kind: 'retract', component };
  return { kind: component > 1e-9 ? 'further-in' : 'sideways', component };
}

/** Along Z alone, and not known to go down. */
export function maybeLift({ from, to, axes }: Moved): boolean {
  if (!axes.every((i) => i === 2)) return false;
  const moved = withLiterals(subtract(to[2] ?? 0, from[2] ?? 0));
  return typeof moved !== 'number' || moved >= 0;
}

function judgeMachine(motion: Moved, n: Direction | null): Pick<Departure, 'kind' | 'component'> {
  if (n === null) return { kind: 'unknown', component: null };
  const leaves = motion.axes.some((i) => i < 3 && Math.abs(n[i as 0 | 1 | 2]) > 1e-9);
  return leaves ? { kind: 'machine-coordinates', component: null } : { kind: 'sideways', component: 0 };
}

/** mm moved along an axis, the latched and the resting position of the touch taken as one. */
function displacement(motion: Moved, i: number, touch: number, perMillimetre: number): number | null {
  const from = resting(motion.from[i] ?? 0, touch);
  const to = resting(motion.to[i] ?? 0, touch);
  const moved = scale(subtract(to, from), 1 / perMillimetre);
  return typeof moved === 'number' ? moved : null;
}

/** An absolute target at or behind the start of the touch is out, one at or beyond its end is further in. */
function boundedSide(
  motion: Moved,
  i: number,
  n: number,
  touch: number,
  all: ReadonlyMap<number, Made>,
  perMillimetre: number,
): 'out' | 'in' | null {
  const made = all.get(touch);
  if (!made) return null;
  const to = scale(motion.to[i] ?? 0, 1 / perMillimetre);
  const beyond = (place: Value) =>
    rangesOf(subtract(to, place), all).map(([least, most]) =>
      n > 0 ? { least, most } : { least: -most, most: -least },
    );
  if (beyond(made.from[i] ?? 0).some(({ most }) => most <= 1e-9)) return 'out';
  return beyond(made.to[i] ?? 0).some(({ least }) => least >= -1e-9) ? 'in' : null;
}

/** The latched position of the touch taken as the one where it came to rest, literals as the numbers they are. */
function resting(value: Value, touch: number): Value {
  return withLiterals(replaceUnknowns(value, (u) => (isLatchedOf(u, touch) ? stoppedAt(u) : null)));
}

function isLatchedOf(u: Unknown, touch: number): u is Unknown & { kind: 'latched' } {
  return u.kind === 'latched' && u.touch === touch;
}

function stoppedAt({ touch, axis }: Unknown & { kind: 'latched' }): Value {
  return single({ kind: 'stopped', key: `p:${touch}:${axis}`, touch, axis });
}
