import { gaugeTolerance } from '../probe/gaugeClass.ts';
import type { Means } from '../probe/improvement.ts';
import type { Profile } from './profile.ts';

/** What a person may do for a better result; a calibration not made yet is reckoned with a ring of 25 mm, known by its class X. */
export function meansOf({ machine }: Profile): Means {
  return { canOrient: machine.spindleOrientation, referenceUncertainty: gaugeTolerance(25, 'X') ?? 0 };
}
