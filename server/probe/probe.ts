import type { PartMaterial, StemMaterial } from './materials.ts';

/**
 * A touch probe in a machine, as plain numbers: mm, mm/s, mm/s², s, degrees, N, K. Directions are those of the approach
 * in machine axes, X+ = 0°, counter-clockwise seen from +Z. `error-model.md` sections 1, 2, 4 and 5 take all they need from here.
 */
export interface Probe {
  /** Actual diameter of the ball, what a micrometer reads. */
  readonly tipDiameter: number;
  readonly stylus: Stylus;
  readonly seat: Seat;
  /** null: nobody calibrated it; the trip model predicts. */
  readonly calibration: ProbeCalibration | null;
  readonly repeatability: Repeatability;
  /** Amplitude of the tip's run-out, its phase unknown; null: not stated. */
  readonly runout: number | null;
  /** How far the stylus may go on after the trip. */
  readonly overtravel: { readonly lateral: number; readonly axial: number };
  readonly overtravelSafetyFactor: number;
  /** How far to back off before the probe reseats. */
  readonly release: number;
  readonly machine: ProbingMachine;
}

/** Free length below the supports and the stem that bends. */
export interface Stylus {
  readonly length: number;
  readonly stemDiameter: number;
  readonly material: StemMaterial;
}

/** Three supports on a circle of `radius`, seated by `preload`; `angle` is one low-force direction (null: unknown). */
export interface Seat {
  readonly radius: number;
  readonly preload: number;
  readonly angle: number | null;
}

/** a·cos hθ + b·sin hθ of the effective radius r(θ), at the calibration's spindle angle. */
export interface Harmonic {
  readonly order: number;
  readonly cosine: number;
  readonly sine: number;
}

export interface ProbeCalibration {
  readonly effectiveDiameter: number;
  /** U of the effective diameter with its coverage factor k; null: not stated. */
  readonly expandedUncertainty: number | null;
  readonly coverageFactor: number;
  /** Feed of the calibration's touches, mm/s; null: not stated. */
  readonly speed: number | null;
  /** null: never observed; empty: observed and none. */
  readonly harmonics: readonly Harmonic[] | null;
}

/** One standard deviation of a touch in one direction; `degreesOfFreedom` null = infinite. */
export interface Repeatability {
  readonly standardDeviation: number;
  readonly degreesOfFreedom: number | null;
  /** The profile key that it comes from. */
  readonly source: string;
}

export interface ProbingMachine {
  readonly deceleration: number;
  /** From the trip until the axis begins to brake. */
  readonly reactionTime: number;
  /** From the trip to the latch. */
  readonly tripLatency: number;
  readonly latchPeriod: number;
  readonly resolution: number;
  /** Expanded, k = 2. */
  readonly positioningUncertainty: number;
  readonly afterTrip: 'stops-past' | 'returns-to-trip';
  /** How far the part's temperature may differ, K; null: not stated. */
  readonly temperatureSpread: number | null;
  readonly material: PartMaterial;
}
