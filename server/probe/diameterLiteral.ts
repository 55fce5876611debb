import { effectiveDiameter } from './effectiveDiameter.ts';
import type { Probe } from './probe.ts';

/** What a literal is to the probe; the literal is `coefficient`·D: 1 the diameter, ½ the radius. */
export type DiameterLiteral =
  | { readonly kind: 'constant' }
  | { readonly kind: 'effective' | 'nominal' | 'outdated' | 'wrong-unit'; readonly coefficient: 0.5 | 1 };

/**
 * Which literal is the diameter (`error-model.md` section 4), first match. `valueMm`: the literal in mm by the units in force;
 * `otherUnitValueMm`: the same digits read in the other unit. Signs are left to the caller.
 *
 * Without a calibration there is no effective diameter to be the current one: a literal near the tip's size that is
 * not the tip itself is taken as an effective diameter that this profile does not know ('effective'), never as 'outdated'.
 */
export function identifyDiameter(probe: Probe, valueMm: number, otherUnitValueMm: number): DiameterLiteral {
  const value = Math.abs(valueMm);
  const current = matchesEffective(probe, value);
  if (current !== null) return { kind: 'effective', coefficient: current };
  const nominal = matches(value, probe.tipDiameter, nominalWithin, nominalWithin);
  if (nominal !== null) return { kind: 'nominal', coefficient: nominal };
  const other = Math.abs(otherUnitValueMm);
  const misread =
    matchesEffective(probe, other) ?? matches(other, probe.tipDiameter, nominalWithin, nominalWithin);
  if (misread !== null) return { kind: 'wrong-unit', coefficient: misread };
  const diameter = effectiveDiameter(probe).value;
  const near = matches(value, diameter, outdatedShare * diameter, (outdatedShare * diameter) / 2);
  if (near === null) return { kind: 'constant' };
  return { kind: probe.calibration === null ? 'effective' : 'outdated', coefficient: near };
}

/** Using the tip's own diameter is a fault only where it differs from the calibrated one by more than that one's U. */
export function nominalIsFault(probe: Probe): boolean {
  const { calibration, tipDiameter } = probe;
  if (calibration === null) return false;
  return tipDiameter - calibration.effectiveDiameter > (calibration.expandedUncertainty ?? 0) + rounding;
}

const nominalWithin = 0.001;
/** What a literal of five decimals in inches, as far as a control reads, may be rounded by, mm. */
const lastDigitWithin = 0.000005 * 25.4;
const outdatedShare = 0.05;
const rounding = 1e-9;

function matchesEffective(probe: Probe, value: number): 0.5 | 1 | null {
  const { calibration, machine } = probe;
  if (calibration === null) return null;
  const within = Math.max(calibration.expandedUncertainty ?? 0, machine.resolution);
  return matches(
    value,
    calibration.effectiveDiameter,
    Math.max(within, lastDigitWithin),
    Math.max(within / 2, lastDigitWithin),
  );
}

/** 1 where the value is the diameter, ½ where it is the radius, within these. */
function matches(
  value: number,
  diameter: number,
  diameterWithin: number,
  radiusWithin: number,
): 0.5 | 1 | null {
  if (Math.abs(value - diameter) <= diameterWithin + rounding) return 1;
  if (Math.abs(value - diameter / 2) <= radiusWithin + rounding) return 0.5;
  return null;
}
