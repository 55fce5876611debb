import type { Probe, ProbeCalibration, ProbingMachine } from '../../server/probe/probe.ts';

export interface ProbeChanges extends Partial<Omit<Probe, 'machine' | 'calibration'>> {
  readonly machine?: Partial<ProbingMachine>;
  readonly calibration?: Partial<ProbeCalibration> | null;
}

/** A calibrated probe of round numbers, changed where a test says so. */
export function aProbe(changes: ProbeChanges = {}): Probe {
  const { machine, calibration, ...rest } = changes;
  return {
    tipDiameter: 4,
    stylus: { length: 50, stemDiameter: 2, material: 'tungsten-carbide' },
    seat: { radius: 7, preload: 1, angle: 0 },
    repeatability: { standardDeviation: 0.001, degreesOfFreedom: null, source: 'probe.repeatability' },
    runout: 0,
    overtravel: { lateral: 5, axial: 3 },
    overtravelSafetyFactor: 2,
    release: 0.3,
    ...rest,
    calibration: calibration === null ? null : { ...aCalibration, ...calibration },
    machine: { ...aMachine, ...machine },
  };
}

const aCalibration: ProbeCalibration = {
  effectiveDiameter: 3.98,
  expandedUncertainty: 0.002,
  coverageFactor: 2,
  speed: 1,
  harmonics: [],
};

const aMachine: ProbingMachine = {
  deceleration: 100,
  reactionTime: 0.01,
  tripLatency: 0.001,
  latchPeriod: 0.001,
  resolution: 0.001,
  positioningUncertainty: 0.01,
  afterTrip: 'stops-past',
  temperatureSpread: null,
  material: 'steel',
};
