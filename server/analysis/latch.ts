import type { Scope } from '../program/evaluate.ts';
import { namesIn, onlyCode } from '../program/modes.ts';
import { activeOffset, unitScale } from '../program/parameters.ts';
import { isNumber, same, scale, subtract, type Value } from '../program/value.ts';
import { activeOrigin, shiftOf } from '../program/workZero.ts';
import type { TouchRequest } from '../program/world.ts';
import type { Flowing } from './flowing.ts';
import type { Staleness } from './model.ts';

/** As a `Staleness`, with the id of the touch for the touch. */
export type ChangeSince =
  | Exclude<Staleness, { kind: 'another-touch' }>
  | { readonly kind: 'another-touch'; readonly earlier: number };

/** What the numbers of a latched position are counted from; by axis, null where that is not known. */
export interface Frame {
  readonly unit: string | null;
  /** The work offset in force. */
  readonly system: string | null;
  readonly origins: readonly (Value | null)[];
  /** Of G92 and G52, where the program set one. */
  readonly shifts: readonly (Value | null)[];
  /** Tool offsets, mm. */
  readonly lengths: readonly (Value | null)[];
}

/** The last touch of a path, whose result is what `#5061` and those behind it hold. */
export interface Latch {
  readonly touch: number;
  readonly alarms: boolean;
  /** Something took one of its coordinates; a test alone takes none. */
  readonly taken: boolean;
  /** By axis: an earlier touch along it whose coordinate this touch wrote over before anything took it. */
  readonly lost: readonly (number | null)[];
  readonly frame: Frame;
}

/** 'none': no touch since the program's start; null: paths differ, or something ran that is not followed. */
export type LastTouch = Latch | 'none' | null;

export function isLatch(last: LastTouch): last is Latch {
  return last !== null && last !== 'none';
}

const axes = [0, 1, 2, 3, 4, 5];

export function frameOf(scope: Scope): Frame {
  const { state } = scope;
  const shift = namesIn('offsetShift', state.modes.offsetShift);
  const system = activeOffset(state);
  const isLengthKnown = onlyCode('toolLength', state.modes.toolLength) !== null;
  return {
    unit: onlyCode('units', state.modes.units),
    system,
    origins: axes.map((i) => (system === null ? null : activeOrigin(i, scope))),
    shifts: axes.map((i) => (shift.includes('unknown') ? null : shiftOf(i, scope))),
    lengths: axes.map((i) => (isLengthKnown ? (state.rig.toolOffset[i] ?? null) : null)),
  };
}

/** The latch after a touch. What an earlier one had along an axis that this one does not move is lost, if nothing took it. */
export function latchAfter(
  touch: number,
  { axes: moved, alarms }: TouchRequest,
  { latch, made }: Pick<Flowing, 'latch' | 'made'>,
  frame: Frame,
): Latch {
  const before = isLatch(latch) ? latch : null;
  const earlier = before && made.get(before.touch);
  const measured = earlier && (before.alarms || earlier.met) && !before.taken ? earlier.axis : null;
  const lost = axes.map((i) => {
    if (before === null || moved.includes(i)) return null;
    return i === measured ? before.touch : (before.lost[i] ?? null);
  });
  return { touch, alarms, taken: false, lost, frame };
}

/** What has come between the latch and now that gives the coordinate of an axis another meaning. */
export function changeSince(
  { frame: then, lost }: Latch,
  axis: number,
  now: Frame,
  { state, world, dialect }: Scope,
): ChangeSince | null {
  if (dialect === 'rs274ngc' && then.unit !== null && now.unit !== null && then.unit !== now.unit)
    return { kind: 'units', from: then.unit, to: now.unit };
  const perMm = axis >= 3 ? 1 : unitScale(state, world);
  const [before, after] = [then.origins[axis] ?? null, now.origins[axis] ?? null];
  const isMoved = differ(before, after);
  if (then.system !== null && now.system !== null && then.system !== now.system && isMoved)
    return { kind: 'selected', from: then.system, to: now.system, apart: apart(before, after, perMm) };
  if (then.system !== null && then.system === now.system && isMoved)
    return { kind: 'written', system: then.system, apart: apart(before, after, perMm) };
  const isSet = namesIn('offsetShift', state.modes.offsetShift).some((name) => /^G/.test(name));
  const [shift, shifted] = [then.shifts[axis] ?? null, now.shifts[axis] ?? null];
  if (isSet && differ(shift, shifted)) return { kind: 'shifted', apart: apart(shift, shifted, perMm) };
  const [length, longer] = [then.lengths[axis] ?? null, now.lengths[axis] ?? null];
  if (differ(length, longer)) return { kind: 'tool-length', apart: apart(length, longer, 1) };
  const earlier = lost[axis] ?? null;
  return earlier === null ? null : { kind: 'another-touch', earlier };
}

/** Where paths meet: what differs is not known. */
export function joinLatches(a: LastTouch, b: LastTouch): LastTouch {
  if (a === b) return a;
  if (!isLatch(a) || !isLatch(b) || a.touch !== b.touch) return null;
  return {
    touch: a.touch,
    alarms: a.alarms && b.alarms,
    taken: a.taken || b.taken,
    lost: a.lost.map((touch, i) => (touch === b.lost[i] ? touch : null)),
    frame: joinFrames(a.frame, b.frame),
  };
}

export function equalLatches(a: LastTouch, b: LastTouch): boolean {
  if (a === b) return true;
  if (!isLatch(a) || !isLatch(b)) return false;
  return (
    a.touch === b.touch &&
    a.alarms === b.alarms &&
    a.taken === b.taken &&
    a.lost.join() === b.lost.join() &&
    a.frame.unit === b.frame.unit &&
    a.frame.system === b.frame.system &&
    (['origins', 'shifts', 'lengths'] as const).every((part) =>
      a.frame[part].every((v, i) => sameOrNull(v, b.frame[part][i] ?? null)),
    )
  );
}

function joinFrames(a: Frame, b: Frame): Frame {
  const agreed = (one: readonly (Value | null)[], other: readonly (Value | null)[]) =>
    one.map((v, i) => (sameOrNull(v, other[i] ?? null) ? v : null));
  return {
    unit: a.unit === b.unit ? a.unit : null,
    system: a.system === b.system ? a.system : null,
    origins: agreed(a.origins, b.origins),
    shifts: agreed(a.shifts, b.shifts),
    lengths: agreed(a.lengths, b.lengths),
  };
}

function sameOrNull(a: Value | null, b: Value | null): boolean {
  return a === null || b === null ? a === b : same(a, b);
}

function differ(a: Value | null, b: Value | null): boolean {
  if (a === null || b === null) return false;
  const difference = subtract(b, a);
  return !isNumber(difference) || Math.abs(difference) > 1e-9;
}

/** mm or degrees by which the number is off from now on, where known. */
function apart(before: Value | null, after: Value | null, perMm: number): number | null {
  if (before === null || after === null) return null;
  const difference = scale(subtract(after, before), 1 / perMm);
  return isNumber(difference) ? Math.abs(difference) : null;
}
