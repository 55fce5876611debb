import type { Scope } from './evaluate.ts';
import type { ModeMasks } from './modes.ts';
import { forgetPosition } from './offsets.ts';
import { activeOffset, unitScale } from './parameters.ts';
import { given, scale } from './value.ts';
import { keepingMachinePosition } from './workZero.ts';

/**
 * Puts back the modes that M70 or M73 saved; the position is re-expressed in their units and work offset. The motion
 * code in force stays, and so does what the spindle has turned to: no saved mode turns it back.
 */
export function restoreModes(saved: ModeMasks, scope: Scope): void {
  const { state, world } = scope;
  const { motion, orientation, toolLength, workOffset } = state.modes;
  if (saved.workOffset !== workOffset) {
    const known = activeOffset(state) !== null && activeOffset({ ...state, modes: { ...saved } }) !== null;
    const change = () => {
      state.modes.workOffset = saved.workOffset;
    };
    if (known) keepingMachinePosition(scope, change);
    else forgetPosition(scope, 'the work offset put back is not known');
  }
  const before = unitScale(state, world);
  state.modes = { ...saved, motion, orientation };
  rescale(scope, unitScale(state, world) / before);
  if (state.saved?.modes === saved) {
    state.feed = state.saved.feed;
    state.rig = { ...state.rig, speed: state.saved.speed };
  }
  if (saved.toolLength !== toolLength)
    state.position[2] = given(`tool-length:${scope.line}`, 'the tool length offset changed');
}

/** Lengths of the position in another unit; turned axes stay degrees (NISTIR 6556, 3.5.7). */
export function rescale({ state }: Pick<Scope, 'state'>, factor: number): void {
  if (factor === 1) return;
  for (const i of [0, 1, 2, 6, 7, 8]) state.position[i] = scale(state.position[i] ?? 0, factor);
}
