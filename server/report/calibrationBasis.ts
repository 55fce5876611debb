import type { MillimetresPer } from '../probe/calibration/readTouches.ts';
import type { Spread } from '../probe/calibration/touches.ts';
import { probeOf } from '../profile/probeOf.ts';
import type { Profile } from '../profile/profile.ts';
import { type Quantities, quantities } from './quantities.ts';

/** What a calibration takes from the profile: units, the tip, and the spread of a touch with what it rests on. */
export interface CalibrationBasis {
  readonly millimetres: MillimetresPer;
  readonly show: Quantities;
  /** Actual diameter, mm; null: the profile states none. */
  readonly tipDiameter: number | null;
  readonly repeatability: Spread;
  readonly statedSpread: string;
}

export function calibrationBasis(profile: Profile, units: 'mm' | 'inch' = profile.units): CalibrationBasis {
  const { repeatability } = probeOf(profile);
  const isBuiltIn = profile.source('probe.repeatability') === 'built-in';
  return {
    millimetres: units === 'inch' ? 25.4 : 1,
    show: quantities(units),
    tipDiameter: profile.source('probe.tipDiameter') === 'profile' ? profile.probe.tipDiameter : null,
    repeatability,
    statedSpread: `${repeatability.source}${isBuiltIn ? ' (built-in value)' : ', profile'}`,
  };
}
