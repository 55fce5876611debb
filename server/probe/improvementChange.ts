import { coverageFactor } from './combinedUncertainty.ts';
import { type DerivedValue, derivedError } from './derivedError.ts';
import { effectiveDiameter } from './effectiveDiameter.ts';
import { meanPreTravel } from './effectiveRadius.ts';
import type { Harmonic, Probe, Stylus } from './probe.ts';
import { readTouches } from './readTouch.ts';
import { lobingShare, modelledOrders, predictedMeanPreTravel } from './tripModel.ts';

/** One thing that a person could change, mm and mm/s. */
export type Change =
  | { readonly kind: 'compensation'; readonly diameterCoefficient: number; readonly diameter: number }
  | { readonly kind: 'latched' }
  | { readonly kind: 'diameter'; readonly diameter: number }
  | { readonly kind: 'correction'; readonly bias: number }
  | { readonly kind: 'feed'; readonly speed: number }
  | { readonly kind: 'touches'; readonly count: number }
  | { readonly kind: 'reversal' }
  | { readonly kind: 'calibration'; readonly touches: number; readonly referenceUncertainty: number }
  | { readonly kind: 'stylus'; readonly stylus: Stylus }
  | { readonly kind: 'machine'; readonly positioningUncertainty: number };

/** A measurement as it would be made: the probe, the value, and whether its known bias is taken off. */
export interface Measurement {
  readonly probe: Probe;
  readonly value: DerivedValue;
  readonly corrected: boolean;
}

/** |bias| + U, mm; null where the bias is unknown. */
export function expectedErrorOf({ probe, value, corrected }: Measurement): number | null {
  const { expectedError, expandedUncertainty } = derivedError(probe, value);
  return corrected && expectedError !== null ? expandedUncertainty : expectedError;
}

/** The measurement after a change. */
export function changed(measurement: Measurement, change: Change): Measurement {
  const { probe, value } = measurement;
  switch (change.kind) {
    case 'compensation': {
      const { diameterCoefficient, diameter } = change;
      return { ...measurement, value: { ...value, diameterCoefficient, diameter } };
    }
    case 'latched':
      return { ...measurement, value: latched(value) };
    case 'diameter':
      return { ...measurement, value: { ...value, diameter: change.diameter } };
    case 'correction':
      return { ...measurement, corrected: true };
    case 'feed':
      return { ...measurement, value: atSpeed(value, change.speed) };
    case 'touches':
      return { ...measurement, probe: averaged(probe, change.count) };
    case 'reversal':
      return reversed(measurement);
    case 'calibration':
      return calibrated(measurement, change.touches, change.referenceUncertainty);
    case 'stylus':
      return withStylus(measurement, change.stylus);
    case 'machine': {
      const machine = { ...probe.machine, positioningUncertainty: change.positioningUncertainty };
      return { ...measurement, probe: { ...probe, machine } };
    }
  }
}

function latched(value: DerivedValue): DerivedValue {
  return { ...value, terms: value.terms.map((term) => ({ ...term, from: 'latched' })) };
}

function atSpeed(value: DerivedValue, speed: number): DerivedValue {
  return { ...value, terms: value.terms.map((term) => ({ ...term, speed })) };
}

/** The mean of touches in one place: what differs between them shrinks, where the machine stands does not. */
function averaged(probe: Probe, count: number): Probe {
  const { repeatability, machine } = probe;
  const root = Math.sqrt(count);
  return {
    ...probe,
    repeatability: { ...repeatability, standardDeviation: repeatability.standardDeviation / root },
    machine: {
      ...machine,
      latchPeriod: machine.latchPeriod / root,
      resolution: machine.resolution / root,
    },
  };
}

/** Each touch once at 0° and once at 180° of the spindle, and the mean: run-out and odd lobes are gone from it. */
function reversed({ probe, value, corrected }: Measurement): Measurement {
  const known =
    value.spindlePhaseKnown && value.terms.every((term) => term.turnedFrom === undefined)
      ? (probe.calibration?.harmonics ?? null)
      : null;
  const even = (known ?? lobesAnyhow(probe)).filter(({ order }) => order % 2 === 0);
  return {
    probe: { ...averaged(asCalibrated(probe, even), 2), runout: 0 },
    value: { ...value, spindlePhaseKnown: known !== null },
    corrected,
  };
}

/**
 * Evenly spaced touches on a reference, the known lobes then taken off: what is left of order 3 is its uncertainty, and of
 * the higher ones what the model says.
 */
function calibrated(
  { probe, value, corrected }: Measurement,
  touches: number,
  referenceUncertainty: number,
): Measurement {
  const speed = slowest(value);
  const scatter = touchScatter(probe, speed);
  const radius = scatter / Math.sqrt(touches);
  const higher = lobesAnyhow({ ...probe, calibration: withoutLobes(probe) }).filter(({ order }) => order > 3);
  const lobes = [{ order: 3, cosine: 2 * radius, sine: 0 }, ...higher];
  const known = asCalibrated(probe, lobes);
  const expandedUncertainty = 2 * Math.hypot(2 * radius, referenceUncertainty / 2);
  const calibration = { ...known.calibration, speed, expandedUncertainty, coverageFactor: 2 };
  return {
    probe: { ...probe, calibration },
    value: { ...value, diameter: calibration.effectiveDiameter, spindlePhaseKnown: false },
    corrected,
  };
}

/** What one touch of a calibration scatters by: the machine stands elsewhere for each. */
function touchScatter({ repeatability, machine }: Probe, speed: number): number {
  const { latchPeriod, resolution, positioningUncertainty } = machine;
  return Math.hypot(
    repeatability.standardDeviation,
    (speed * latchPeriod) / Math.sqrt(12),
    resolution / Math.sqrt(12),
    positioningUncertainty / 2,
  );
}

/** The trip model says how pre-travel and lobes change with the stylus; it is calibrated again, and its diameter used. */
function withStylus({ probe, value, corrected }: Measurement, stylus: Stylus): Measurement {
  const ratio = predictedMeanPreTravel({ ...probe, stylus }) / predictedMeanPreTravel(probe);
  const { calibration } = probe;
  const scaled: Probe = {
    ...probe,
    stylus,
    calibration: calibration && {
      ...calibration,
      effectiveDiameter: probe.tipDiameter - ratio * (probe.tipDiameter - calibration.effectiveDiameter),
      harmonics:
        calibration.harmonics?.map(({ order, cosine, sine }) =>
          order === 1 ? { order, cosine, sine } : { order, cosine: ratio * cosine, sine: ratio * sine },
        ) ?? null,
    },
  };
  const diameter = value.diameter === null ? null : effectiveDiameter(scaled).value;
  return { probe: scaled, value: { ...value, diameter }, corrected };
}

/** The same probe with its radius, and these lobes, as if from a calibration; a prediction has no latency in it. */
function asCalibrated(probe: Probe, harmonics: readonly Harmonic[]): Probe & { calibration: object } {
  const { calibration } = probe;
  if (calibration !== null) return { ...probe, calibration: { ...calibration, harmonics } };
  const { value, expandedUncertainty } = effectiveDiameter(probe);
  return {
    ...probe,
    calibration: {
      effectiveDiameter: value,
      expandedUncertainty,
      coverageFactor: coverageFactor(null),
      speed: 0,
      harmonics,
    },
  };
}

/** Lobes that may stand anyhow: the known amplitudes, else the model's share of the mean pre-travel. */
function lobesAnyhow(probe: Probe): readonly Harmonic[] {
  const mean = meanPreTravel(probe);
  return (
    probe.calibration?.harmonics ??
    modelledOrders.map((order) => ({ order, cosine: Math.abs(lobingShare(order)) * mean, sine: 0 }))
  );
}

function withoutLobes({ calibration }: Probe): Probe['calibration'] {
  return calibration && { ...calibration, harmonics: null };
}

/** mm/s; 0 where no touch has a known one. */
export function slowest(value: DerivedValue): number {
  const speeds = readTouches(value.terms).flatMap(({ speed, along }) => (along === 0 ? [] : (speed ?? [])));
  return speeds.length === 0 ? 0 : Math.min(...speeds);
}
