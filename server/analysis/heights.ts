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

/** Where a touch is made in Z. */
export interface Height {
  /** Work coordinate, mm; null where it is no known number. */
  readonly z: number | null;
  /** mm above what an earlier touch along Z met (negative: below it), where the height is counted from that. */
  readonly aboveTouched: number | null;
  /** mm above the height at which the program begins, where it is counted from that. */
  readonly aboveStart: number | null;
}

export function heightOf(position: readonly Value[], perMm: number): Height {
  const z = withLiterals(replaceUnknowns(scale(position[2] ?? 0, 1 / perMm), restingForLatched));
  if (typeof z === 'number') return { z, aboveTouched: null, aboveStart: null };
  const [term, ...others] = z.terms;
  const from =
    others.length === 0 && Math.abs((term?.coefficient ?? 0) - 1) < 1e-12 ? term?.unknown : undefined;
  return {
    z: null,
    aboveTouched: from?.kind === 'stopped' && from.axis === 2 ? z.constant : null,
    aboveStart: from?.key.startsWith('g:start:Z') ? z.constant : null,
  };
}

/** mm that a plain motion goes down, where that is known; 0 where it does not go down. */
export function descentOf({ kind, from, to, axes }: Motion, perMm: number): number {
  if ((kind !== 'rapid' && kind !== 'feed') || !axes.includes(2)) return 0;
  const z = (at: readonly Value[]) => withLiterals(replaceUnknowns(at[2] ?? 0, restingForLatched));
  const down = scale(subtract(z(from), z(to)), 1 / perMm);
  return typeof down === 'number' ? Math.max(0, down) : 0;
}

/** Between the latched and the resting position lies no more than the stopping distance. */
function restingForLatched(u: Unknown): Value | null {
  if (u.kind !== 'latched') return null;
  return single({ kind: 'stopped', key: `p:${u.touch}:${u.axis}`, touch: u.touch, axis: u.axis });
}
