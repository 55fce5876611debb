import type { Probe, ProbeCalibration, Repeatability } from '../probe/probe.ts';
import type { Profile } from './profile.ts';

export { measuringFeed } from './measuringFeed.ts';

/** The numbers of a profile that the error model works on: feeds become mm/s. */
export function probeOf(profile: Profile): Probe {
  const { probe, machine } = profile;
  return {
    tipDiameter: probe.tipDiameter,
    stylus: probe.stylus,
    seat: probe.seat,
    calibration: calibrationOf(profile),
    repeatability: repeatabilityOf(profile),
    runout: probe.runout,
    overtravel: probe.overtravel,
    overtravelSafetyFactor: profile.overtravelSafetyFactor,
    release: probe.release,
    machine,
  };
}

function calibrationOf(profile: Profile): ProbeCalibration | null {
  const { calibration } = profile.probe;
  if (calibration === null) return null;
  const stated = profile.source('probe.calibration.expandedUncertainty') === 'profile';
  return {
    effectiveDiameter: calibration.effectiveDiameter,
    expandedUncertainty: stated ? calibration.expandedUncertainty : null,
    coverageFactor: calibration.coverageFactor,
    speed: calibration.feed === null ? null : calibration.feed / 60,
    harmonics: calibration.harmonics,
  };
}

/** The stated one, else the residual of the calibration with its degrees of freedom, else the built-in one. */
function repeatabilityOf(profile: Profile): Repeatability {
  const { repeatability, calibration } = profile.probe;
  if (profile.source('probe.repeatability') !== 'derived')
    return { standardDeviation: repeatability, degreesOfFreedom: null, source: 'probe.repeatability' };
  return {
    standardDeviation: repeatability,
    degreesOfFreedom: calibration?.degreesOfFreedom ?? null,
    source: 'probe.calibration.residualStandardDeviation',
  };
}
