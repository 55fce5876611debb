import { lobesAt } from '../effectiveRadius.ts';
import type { Harmonic } from '../probe.ts';
import { type DiameterUncertainty, diameterUncertainty } from './diameterUncertainty.ts';
import { isSolvable, type LeastSquares, leastSquares, residualSpread } from './leastSquares.ts';
import { design, greatestCondition, observability, type UnseenOrder } from './observability.ts';
import { outlyingObservations } from './outliers.ts';
import { groupedRepeats, modelLacks, pooledSpread } from './repeats.ts';
import {
  angleBetween,
  type CalibrationTouch,
  degrees,
  type Reference,
  type Spread,
  signedHalf,
} from './touches.ts';
import {
  type Approach,
  approachesOf,
  latencyColumn,
  lobeColumn,
  severalSpindles,
  type Unknowns,
} from './unknowns.ts';

/** What a calibration on a ring or a plug says: mm, s, degrees. */
export interface Calibration {
  readonly effectiveDiameter: number;
  /** null: nothing says how far a touch spreads. */
  readonly uncertainty: DiameterUncertainty | null;
  readonly centre: readonly [number, number];
  /** null: the actual diameter of the tip is not known. */
  readonly meanPreTravel: number | null;
  /** Largest less smallest fitted radius over a turn; null where order 3 is not observable. */
  readonly preTravelVariation: number | null;
  readonly harmonics: readonly Harmonic[];
  readonly notObservable: readonly UnseenOrder[];
  readonly condition: number;
  /** null: no degrees of freedom. */
  readonly residualStandardDeviation: number | null;
  readonly degreesOfFreedom: number;
  readonly largestResidual: number;
  readonly latency: { readonly value: number; readonly standardUncertainty: number | null } | null;
  readonly latencyUnseen: boolean;
  readonly directions: readonly TouchResult[];
  /** Rows of touches that do not belong to the others; they are in every number all the same. */
  readonly outliers: readonly number[];
  /** Spread of repeated touches; null: none was repeated. */
  readonly repeatability: Spread | null;
  /** The residuals hold more than the repeated touches spread; null: nothing to compare. */
  readonly modelLacks: boolean | null;
  /** Spindle angle that the harmonics hold for; null: not stated. */
  readonly spindle: number | null;
  readonly spindles: readonly number[];
  /** Feed that the diameter holds for, mm/s: that of the first touch; null: not stated. */
  readonly speed: number | null;
  /** Each feed, mm/s, with the rows that it was touched at; empty: not stated. */
  readonly feeds: readonly { readonly speed: number; readonly rows: readonly number[] }[];
  /** The directions settled while the centre was found. */
  readonly settled: boolean;
}

export interface TouchResult {
  readonly row: number;
  /** Found direction of approach, [0, 360). */
  readonly direction: number;
  readonly spindle: number | null;
  /** Observed r, mm. */
  readonly effectiveRadius: number;
  /** Observed − fitted. */
  readonly residual: number;
}

export interface CalibrationOptions {
  readonly orders: readonly number[];
  readonly tipDiameter: number | null;
  /** Taken where the touches leave no degrees of freedom. */
  readonly repeatability: Spread | null;
}

/** Why there is no calibration. */
export type CalibrationRefusal =
  | { readonly kind: 'too-few'; readonly touches: number; readonly needed: number }
  | { readonly kind: 'one-sided'; readonly condition: number };

/**
 * Calibrates on a ring or a plug (`error-model.md` section 3): effective diameter, lobes, centre, latency, with what the
 * touches cannot tell. The directions must be plausible: ask `implausibleTouches` first.
 */
export function calibrate(
  touches: readonly CalibrationTouch[],
  reference: Reference,
  options: CalibrationOptions,
): Calibration | CalibrationRefusal {
  if (touches.length < 3) return { kind: 'too-few', touches: touches.length, needed: 3 };
  const commanded = approachesOf(touches);
  const turned = severalSpindles(touches);
  const seen = observability(commanded, options.orders, turned);
  if (!(seen.condition <= greatestCondition)) return { kind: 'one-sided', condition: seen.condition };
  const solved = solve(touches, reference, commanded, seen.unknowns);
  const { fit, observed, approaches } = solved;
  const { parameters } = fit;
  const effectiveDiameter = 2 * (parameters[0] ?? 0);
  const harmonics = harmonicsOf(seen.unknowns, parameters);
  const residual = residualSpread(fit);
  const spread =
    residual === null ? null : { standardDeviation: residual, degreesOfFreedom: fit.degreesOfFreedom };
  const repeats = pooledSpread(groupedRepeats(touches, fit.residuals));
  const outlying = outlyingObservations(design(approaches, seen.unknowns), observed);
  return {
    effectiveDiameter,
    // u(D_eff)² = (2s)²·[(XᵀX)⁻¹]_{r0 r0} + (U_ref/2)²
    uncertainty: diameterUncertainty(
      4 * (fit.inverse[0]?.[0] ?? 0),
      spread,
      options.repeatability,
      reference.expandedUncertainty,
    ),
    centre: [parameters[1] ?? 0, parameters[2] ?? 0],
    meanPreTravel: options.tipDiameter === null ? null : (options.tipDiameter - effectiveDiameter) / 2,
    preTravelVariation: seen.unknowns.orders.includes(3) ? rangeOver(harmonics) : null,
    harmonics,
    notObservable: seen.notObservable,
    condition: seen.condition,
    residualStandardDeviation: residual,
    degreesOfFreedom: fit.degreesOfFreedom,
    largestResidual: Math.max(...fit.residuals.map(Math.abs)),
    latency: latencyOf(seen.unknowns, fit, residual),
    latencyUnseen: seen.latencyUnseen,
    directions: touches.map((touch, index) => touchResult(touch, index, solved)),
    outliers: outlying.map((index) => touches[index]?.row ?? 0),
    repeatability: repeats,
    modelLacks: spread === null ? null : modelLacks(spread, repeats),
    spindle: turned ? 0 : (touches[0]?.spindle ?? null),
    spindles: distinct(touches.map(({ spindle }) => spindle)),
    speed: touches[0]?.speed ?? null,
    feeds: distinct(touches.map(({ speed }) => speed)).map((speed) => ({
      speed,
      rows: touches.filter((touch) => touch.speed === speed).map(({ row }) => row),
    })),
    settled: solved.settled,
  };
}

interface Solution {
  readonly fit: LeastSquares;
  /** ±size/2 − m·n. */
  readonly observed: readonly number[];
  readonly approaches: readonly Approach[];
  readonly settled: boolean;
}

const enoughRounds = 20;
const settledAt = 1e-10;

/** Least squares with the directions taken again from the centre found, until none moves. */
function solve(
  touches: readonly CalibrationTouch[],
  reference: Reference,
  commanded: readonly Approach[],
  unknowns: Unknowns,
): Solution {
  const half = signedHalf(reference);
  const fitted = (approaches: readonly Approach[], settled: boolean): Solution => {
    const observed = touches.map(({ x, y }, index) => {
      const angle = approaches[index]?.angle ?? 0;
      return half - (x * Math.cos(angle) + y * Math.sin(angle));
    });
    return { fit: leastSquares(design(approaches, unknowns), observed), observed, approaches, settled };
  };
  let solution = fitted(commanded, false);
  for (let round = 1; ; round += 1) {
    const { approaches, fit } = solution;
    const [, x = 0, y = 0] = fit.parameters;
    const found = touches.map((touch) =>
      half > 0 ? Math.atan2(touch.y - y, touch.x - x) : Math.atan2(y - touch.y, x - touch.x),
    );
    const moved = found.some(
      (angle, index) => angleBetween(angle, approaches[index]?.angle ?? 0) > settledAt,
    );
    if (!moved) return { ...solution, settled: true };
    const next = approaches.map((approach, index) => ({ ...approach, angle: found[index] ?? 0 }));
    // Places that are on no circle can drive the directions together.
    if (round === enoughRounds || !isSolvable(design(next, unknowns))) return solution;
    solution = fitted(next, false);
  }
}

function touchResult(
  { row, spindle }: CalibrationTouch,
  index: number,
  { fit, observed, approaches }: Solution,
): TouchResult {
  const angle = approaches[index]?.angle ?? 0;
  const [, x = 0, y = 0] = fit.parameters;
  return {
    row,
    direction: degrees(angle),
    spindle,
    effectiveRadius: (observed[index] ?? 0) + x * Math.cos(angle) + y * Math.sin(angle),
    residual: fit.residuals[index] ?? 0,
  };
}

function harmonicsOf(unknowns: Unknowns, parameters: readonly number[]): Harmonic[] {
  return unknowns.orders.map((order, index) => {
    const column = lobeColumn(unknowns, index);
    return { order, cosine: parameters[column] ?? 0, sine: parameters[column + 1] ?? 0 };
  });
}

function latencyOf(
  { latency }: Unknowns,
  fit: LeastSquares,
  residual: number | null,
): Calibration['latency'] {
  if (!latency) return null;
  const share = fit.inverse[latencyColumn]?.[latencyColumn] ?? 0;
  return {
    value: fit.parameters[latencyColumn] ?? 0,
    standardUncertainty: residual === null ? null : residual * Math.sqrt(share),
  };
}

/** Largest less smallest of the lobes over a turn: a fine scan, each end sharpened by the parabola through its three best points. */
function rangeOver(harmonics: readonly Harmonic[]): number {
  const highest = Math.max(1, ...harmonics.map(({ order }) => order));
  const steps = 360 * highest;
  const values = Array.from({ length: steps }, (_, index) => lobesAt(harmonics, (index * 360) / steps));
  const peak = (sign: number): number => {
    let at = 0;
    for (let index = 1; index < steps; index += 1)
      if (sign * (values[index] ?? 0) > sign * (values[at] ?? 0)) at = index;
    const [before = 0, top = 0, after = 0] = [-1, 0, 1].map(
      (step) => sign * (values[(at + step + steps) % steps] ?? 0),
    );
    const bend = before - 2 * top + after;
    return bend === 0 ? top : top - (after - before) ** 2 / (8 * bend);
  };
  return peak(1) + peak(-1);
}

function distinct(values: readonly (number | null)[]): number[] {
  return [...new Set(values.filter((value) => value !== null))].sort((a, b) => a - b);
}
