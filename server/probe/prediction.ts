import { coverageFactor } from './combinedUncertainty.ts';
import { effectiveDiameter } from './effectiveDiameter.ts';
import { effectiveRadius } from './effectiveRadius.ts';
import type { Harmonic, Probe } from './probe.ts';
import {
  lobingShare,
  modelledOrders,
  predictedAxialPreTravel,
  predictedMeanPreTravel,
  predictedPreTravel,
  tripForces,
} from './tripModel.ts';

interface Range {
  readonly low: number;
  readonly mean: number;
  readonly high: number;
}

/** What the trip model says about a probe, calibrated or not: N, mm, degrees. Latency is left out. */
export interface Prediction {
  /** Force at the tip that trips the probe. */
  readonly force: Range;
  readonly preTravel: Range;
  /** Along the axis. */
  readonly axialPreTravel: number;
  /** Of the mean pre-travel: itself/√3. */
  readonly standardUncertainty: number;
  /** Of the effective diameter: twice the pre-travel's, with 95 %. */
  readonly expandedUncertainty: number;
  readonly coverageFactor: number;
  readonly effectiveDiameter: number;
  /** Of the effective radius, as the profile writes those of a calibration. */
  readonly harmonics: readonly Harmonic[];
  /** false: a low-force direction is taken to be X+. */
  readonly seatAngleKnown: boolean;
  /** Effective radius along the axes, X+, Y+, X−, Y−. */
  readonly directions: readonly { readonly direction: number; readonly effectiveRadius: number }[];
}

/** `error-model.md` section 2, as if nobody had calibrated the probe. */
export function predict(given: Probe): Prediction {
  const probe: Probe = { ...given, calibration: null };
  const angle = probe.seat.angle ?? 0;
  const { value, expandedUncertainty } = effectiveDiameter(probe);
  const mean = predictedMeanPreTravel(probe);
  return {
    force: tripForces(probe),
    preTravel: { low: predictedPreTravel(probe, angle), mean, high: predictedPreTravel(probe, angle + 60) },
    axialPreTravel: predictedAxialPreTravel(probe),
    standardUncertainty: mean / Math.sqrt(3),
    expandedUncertainty: expandedUncertainty ?? Number.NaN,
    coverageFactor: coverageFactor(null),
    effectiveDiameter: value,
    harmonics: modelledOrders.map((order) => harmonicOf(order, mean, angle)),
    seatAngleKnown: probe.seat.angle !== null,
    directions: [0, 90, 180, 270].map((direction) => ({
      direction,
      effectiveRadius: effectiveRadius(probe, direction, 0, 'towards'),
    })),
  };
}

/** Of r = R − p: more pre-travel is less radius. */
function harmonicOf(order: number, mean: number, angle: number): Harmonic {
  const amplitude = -lobingShare(order) * mean;
  const phase = (order * angle * Math.PI) / 180;
  return { order, cosine: amplitude * Math.cos(phase), sine: amplitude * Math.sin(phase) };
}
