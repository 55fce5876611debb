import { allModes, unknown } from '../program/modes.ts';
import { unknownRig } from '../program/rig.ts';
import { setParameter } from '../program/state.ts';
import { given } from '../program/value.ts';
import type { Running } from './flowing.ts';

/** After something that is not followed nothing is known, and nothing is held against the program. */
export function lostTrack(flow: Running, line: number, reason: string): Running {
  const { state } = flow;
  const key = `after-call:${line}`;
  state.modes = allModes(unknown);
  state.feed = { unset: false, value: given(key, reason), place: null, byPath: [] };
  state.position = state.position.map((_, i) => given(`${key}:${i}`, reason));
  state.latched = state.latched.map((_, i) => given(`${key}:l${i}`, reason));
  state.success = given(`${key}:s`, reason);
  state.returned = given(`${key}:r`, reason);
  state.rig = unknownRig(key, reason);
  for (const name of [...state.globals.keys()])
    setParameter(state, 'globals', name, given(`${key}:#${name}`, reason));
  return { state, contact: new Map(), made: new Map(), latch: null, ownsMade: false, lastTest: null };
}
