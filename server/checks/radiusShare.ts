import type { ConstantUse } from '../analysis/model.ts';
import { effectiveDiameter } from '../probe/effectiveDiameter.ts';
import { probeOf } from '../profile/probeOf.ts';
import type { Profile } from '../profile/profile.ts';
import { isRoundLength } from './roundLength.ts';

export interface RadiusShare {
  /** The radius that it holds, mm. */
  readonly radius: number;
  /** What is left when the radius is taken out, mm: a round number. */
  readonly rest: number;
}

/**
 * A constant (mm) that is no round number itself but is one together with the tip's radius, actual or effective: a plate,
 * a distance or an edge with the radius added by hand. null where it is not.
 */
export function radiusShare({ value }: ConstantUse, profile: Profile): RadiusShare | null {
  const size = Math.abs(value);
  if (isRoundLength(size)) return null;
  const effective = effectiveDiameter(probeOf(profile)).value / 2;
  for (const radius of [effective, profile.probe.tipDiameter / 2])
    for (const rest of [size - radius, size + radius])
      if (rest > radius / 2 && isRoundLength(rest)) return { radius, rest };
  return null;
}
