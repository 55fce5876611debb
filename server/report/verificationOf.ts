import { implausibleDirections, implausibleSize } from '../probe/calibration/implausible.ts';
import { readTouches } from '../probe/calibration/readTouches.ts';
import { type Verification, verifyCalibration } from '../probe/calibration/verify.ts';
import { probeOf } from '../profile/probeOf.ts';
import type { Profile } from '../profile/profile.ts';
import type { CalibrationRequest } from './calibrationOf.ts';
import { refusalText } from './calibrationRefusal.ts';
import { type Faults, touchesOf } from './touchesOf.ts';

/** What is known beside the touches: as for a calibration, as far as it counts here. */
export type VerificationRequest = Pick<
  CalibrationRequest,
  'reference' | 'tipDiameter' | 'without' | 'millimetres' | 'show' | 'asking'
>;

/** What the touches of a CSV file (`readTouches`) say of the profile's calibration, or why they say nothing. */
export function verificationOf(
  name: string,
  text: string,
  profile: Profile,
  request: VerificationRequest,
): Verification | Faults {
  const { reference, tipDiameter, show, asking } = request;
  const { calibration } = profile.probe;
  const { kind } = reference;
  if (kind === 'sphere')
    return {
      faults: [`${name}: a calibration is verified on a ring, a plug, a gap or a block, not on a sphere.`],
    };
  const found = touchesOf(name, readTouches(text, request.millimetres), request.without);
  if ('faults' in found) return found;
  const { touches } = found;
  const kept = { ...reference, kind };
  const refused = (refusal: Parameters<typeof refusalText>[0]): Faults => ({
    faults: refusalText(refusal, kept, show, asking).map((each) => `${name}: ${each}`),
  });
  const implausible = touches.length < 3 ? null : implausibleDirections(touches, kept);
  // Touches of one axis stand on a line, as they should.
  if (implausible !== null && implausible.kind !== 'collinear') return refused(implausible);
  const result = verifyCalibration(touches, kept, probeOf(profile), calibration?.spindle ?? null);
  if ('kind' in result)
    return result.kind === 'not-calibrated'
      ? { faults: [`${profile.path ?? 'the built-in profile'}: ${nothingToCompare}`] }
      : refused(result);
  const radius = ((calibration?.effectiveDiameter ?? 0) + result.drift) / 2;
  const size = implausibleSize(radius, kept, tipDiameter ?? calibration?.effectiveDiameter ?? null);
  return size === null ? result : refused(size);
}

const nothingToCompare = 'there is no calibration to compare with (probe.calibration.effectiveDiameter).';
