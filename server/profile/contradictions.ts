import type { Node } from 'jsonc-parser';
import { lobesAt } from '../probe/effectiveRadius.ts';
import type { Harmonic } from '../probe/probe.ts';
import type { Profile, ProfileCalibration } from './profile.ts';
import { placeOf } from './profileProblems.ts';
import type { TextProblem } from './profileText.ts';

/** Values that are possible one by one and impossible together. */
export function contradictions(profile: Profile, root: Node): TextProblem[] {
  const { calibration } = profile.probe;
  const range = emptyRange(profile, root);
  if (calibration === null || range.length > 0) return range;
  const listed = [
    ...repeatedOrder(calibration.harmonics ?? [], root),
    ...residualOfNothing(calibration, root),
  ];
  if (listed.length > 0) return listed;
  return [
    ...largerThanTip(profile, calibration, root),
    ...negativePreTravel(profile, calibration, root),
  ].slice(0, 1);
}

const calibrationPath = ['probe', 'calibration'];

function emptyRange({ routines }: Profile, root: Node): TextProblem[] {
  const { first, last } = routines.parameters;
  if (first <= last) return [];
  const key = 'routines.parameters';
  const message = `${key} runs from ${first} to ${last}: there is no number in it.`;
  return [{ key, message, ...placeOf(root, key.split('.')) }];
}

function repeatedOrder(harmonics: readonly Harmonic[], root: Node): TextProblem[] {
  const orders = harmonics.map((harmonic) => harmonic.order);
  const index = orders.findIndex((order, at) => orders.indexOf(order) < at);
  if (index < 0) return [];
  const key = `probe.calibration.harmonics[${index}].order`;
  const place = placeOf(root, [...calibrationPath, 'harmonics', index, 'order']);
  return [{ key, message: `${key} is ${orders[index]}, which the list already holds.`, ...place }];
}

function residualOfNothing(calibration: ProfileCalibration, root: Node): TextProblem[] {
  if (calibration.degreesOfFreedom !== 0 || calibration.residualStandardDeviation === null) return [];
  const key = 'probe.calibration.degreesOfFreedom';
  const message = `${key} is 0; then no residualStandardDeviation can be known: leave it out.`;
  return [{ key, message, ...placeOf(root, [...calibrationPath, 'degreesOfFreedom']) }];
}

function largerThanTip(profile: Profile, calibration: ProfileCalibration, root: Node): TextProblem[] {
  const { tipDiameter } = profile.probe;
  if (calibration.effectiveDiameter <= tipDiameter + rounding) return [];
  const key = 'probe.calibration.effectiveDiameter';
  const tip = `the actual diameter of the tip, probe.tipDiameter, ${said(tipDiameter, profile)}`;
  const builtIn = profile.source('probe.tipDiameter') === 'built-in' ? ' (built in: state your own)' : '';
  const message = `${key} is ${said(calibration.effectiveDiameter, profile)}; it must be at most ${tip}${builtIn}.`;
  return [{ key, message, ...placeOf(root, [...calibrationPath, 'effectiveDiameter']) }];
}

/**
 * p(θ) = R − r_cal(θ) − v_cal·τ ≥ 0 in every direction (`error-model.md` section 1). The latency counts where the profile
 * states it: a built-in number must not make a calibration impossible. Order 1 is run-out: it moves the ball, not the trip.
 */
function negativePreTravel(profile: Profile, calibration: ProfileCalibration, root: Node): TextProblem[] {
  const harmonics = (calibration.harmonics ?? []).filter(({ order }) => order !== 1);
  const stated = profile.source('machine.tripLatency') === 'profile';
  const latency = stated ? ((calibration.feed ?? 0) / 60) * profile.machine.tripLatency : 0;
  const mean = (profile.probe.tipDiameter - calibration.effectiveDiameter) / 2 - latency;
  const { value, direction } = largestLobe(harmonics);
  if (mean - value >= -rounding) return [];
  const lobed = harmonics.length > 0;
  const key = lobed ? 'probe.calibration.harmonics' : 'probe.calibration.effectiveDiameter';
  const where = lobed ? ` in the direction ${Math.round(direction) % 360}°` : '';
  const latencySaid = latency > 0 ? ', latency at the calibration taken off' : '';
  const message = `${key}: the pre-travel would be ${said(mean - value, profile)}${where}${latencySaid}; it can't be negative. Check the harmonics, the effective diameter, the tip diameter and the latency.`;
  return [{ key, message, ...placeOf(root, key.split('.')) }];
}

/** Where the sum of the lobes is largest over a turn, and how large: a fine scan, then a search around its best. */
function largestLobe(harmonics: readonly Harmonic[]): { value: number; direction: number } {
  const highest = Math.max(0, ...harmonics.map((harmonic) => harmonic.order));
  const steps = 64 * Math.max(1, highest);
  const step = 360 / steps;
  let best = 0;
  for (let index = 1; index < steps; index += 1)
    if (lobesAt(harmonics, index * step) > lobesAt(harmonics, best)) best = index * step;
  let [from, to] = [best - step, best + step];
  for (let round = 0; round < 50; round += 1) {
    const third = (to - from) / 3;
    if (lobesAt(harmonics, from + third) < lobesAt(harmonics, to - third)) from += third;
    else to -= third;
  }
  const direction = (from + to) / 2;
  return { value: lobesAt(harmonics, direction), direction: ((direction % 360) + 360) % 360 };
}

// Lengths go through a factor of 25.4 and back.
const rounding = 1e-9;

/** A length in the file's own units. */
function said(millimetres: number, profile: Profile): string {
  const inch = profile.units === 'inch';
  const value = inch ? millimetres / 25.4 : millimetres;
  return `${Number(value.toFixed(inch ? 6 : 5))} ${inch ? 'in' : 'mm'}`;
}
