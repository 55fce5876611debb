import { combinedUncertainty, coverageFactor } from '../combinedUncertainty.ts';
import { effectiveRadius } from '../effectiveRadius.ts';
import type { Probe } from '../probe.ts';
import { fisherQuantile } from '../quantiles.ts';
import { conditionNumber, isSolvable, type LeastSquares, leastSquares } from './leastSquares.ts';
import { greatestCondition } from './observability.ts';
import { groupedRepeats, pooledSpread } from './repeats.ts';
import {
  angleBetween,
  type CalibrationTouch,
  degrees,
  type Reference,
  radians,
  type Spread,
  signedHalf,
} from './touches.ts';
import { type AxisComparison, compareAxes } from './verifyAxes.ts';

/** What a few touches say about a calibration, mm: whether it still holds. */
export interface Verification {
  readonly verdict: 'holds' | 'touch-more' | 'calibrate-again';
  /** Why it is to be made again. */
  readonly reasons: readonly ('drift' | 'lobing')[];
  /** Effective diameter now less that of the calibration, the touches' feeds allowed for. */
  readonly drift: number;
  readonly standardUncertainty: number;
  /** null = infinite. */
  readonly degreesOfFreedom: number | null;
  readonly coverageFactor: number;
  /** A smaller drift these touches cannot tell from none: U of the drift. */
  readonly detectable: number;
  /** U of the calibration's diameter; null: not stated. */
  readonly calibrationUncertainty: number | null;
  readonly spread: Spread & { readonly from: 'touches' | 'stated' };
  /** What is left when the calibration, a drift and the place of the reference are taken off; null: no degrees of freedom. */
  readonly residual: (Spread & { readonly tooLarge: boolean }) | null;
  readonly axes: AxisComparison;
  /** The place of the reference across the touches stays unknown: touches off the diameter show as drift. */
  readonly oneAxis: boolean;
}

export type VerificationRefusal =
  | { readonly kind: 'not-calibrated' }
  | { readonly kind: 'too-few'; readonly touches: number; readonly needed: number }
  | { readonly kind: 'one-face' };

/**
 * Compares touches of a reference with a calibration: with r_cal known (`error-model.md` section 1),
 *
 *     ±size/2 − m·n − r_cal(θ−φ, v) = δ − c·n
 *
 * is solved for the change δ of the radius and the place c of the reference. The drift 2δ is tested by Student's t against
 * u² = (2s)²·[(XᵀX)⁻¹]_{δδ} + (U_cal/k)² + (U_ref/2)², degrees of freedom by Welch–Satterthwaite, 5 %; the residuals by F against s²,
 * 5 %: what they hold beyond it are lobes that the calibration has not. s is that of touches repeated here where they leave
 * three degrees of freedom, else the stated one.
 * @param calibratedAt spindle angle of the calibration, degrees; null: not stated
 */
export function verifyCalibration(
  touches: readonly CalibrationTouch[],
  reference: Reference,
  probe: Probe,
  calibratedAt: number | null,
): Verification | VerificationRefusal {
  const { calibration } = probe;
  if (calibration === null) return { kind: 'not-calibrated' };
  if (touches.length < 2) return { kind: 'too-few', touches: touches.length, needed: 2 };
  const radiusOf: RadiusOf = (touch, angle) => expectedRadius(touch, angle, probe, calibratedAt);
  const solved = solve(touches, radiusOf, reference);
  if (solved === null) return { kind: 'one-face' };
  const { fit } = solved;
  const spread = spreadOf(touches, fit, probe);
  const { expandedUncertainty, coverageFactor: k } = calibration;
  const combined = combinedUncertainty([
    {
      standardUncertainty: 2 * spread.standardDeviation * Math.sqrt(fit.inverse[0]?.[0] ?? 0),
      degreesOfFreedom: spread.degreesOfFreedom,
    },
    { standardUncertainty: (expandedUncertainty ?? 0) / k, degreesOfFreedom: null },
    { standardUncertainty: reference.expandedUncertainty / 2, degreesOfFreedom: null },
  ]);
  const covered = coverageFactor(combined.degreesOfFreedom);
  const drift = 2 * (fit.parameters[0] ?? 0);
  const detectable = covered * combined.standardUncertainty;
  const residual = residualOf(fit, spread);
  const reasons = [
    ...(Math.abs(drift) > detectable ? ['drift' as const] : []),
    ...(residual?.tooLarge === true ? ['lobing' as const] : []),
  ];
  const beyond = expandedUncertainty !== null && Math.abs(drift) > expandedUncertainty;
  return {
    verdict: reasons.length > 0 ? 'calibrate-again' : beyond ? 'touch-more' : 'holds',
    reasons,
    drift,
    ...combined,
    coverageFactor: covered,
    detectable,
    calibrationUncertainty: expandedUncertainty,
    spread,
    residual,
    axes: compareAxes(touches, radii(solved), spread),
    oneAxis: solved.oneAxis,
  };
}

/** Effective radius by the calibration where a touch meets the surface along `angle`, radians. */
type RadiusOf = (touch: CalibrationTouch, angle: number) => number;

interface Fitted {
  readonly fit: LeastSquares;
  /** By the calibration, for each touch along the normal that it met. */
  readonly expected: readonly number[];
}

/** What each touch shows is what the calibration says, the drift and what is left: the place is taken off. */
function radii({ fit, expected }: Fitted): { expected: number; observed: number }[] {
  const change = fit.parameters[0] ?? 0;
  return expected.map((radius, index) => ({
    expected: radius,
    observed: radius + change + (fit.residuals[index] ?? 0),
  }));
}

function expectedRadius(
  { speed, spindle }: CalibrationTouch,
  angle: number,
  probe: Probe,
  calibratedAt: number | null,
): number {
  const at = speed ?? probe.calibration?.speed ?? 0;
  return effectiveRadius(
    probe,
    degrees(angle),
    at,
    'towards',
    (spindle ?? calibratedAt ?? 0) - (calibratedAt ?? 0),
  );
}

/** δ first, then the place: both coordinates, or the one along the only axis. null: one side only. */
function solve(
  touches: readonly CalibrationTouch[],
  radiusOf: RadiusOf,
  reference: Reference,
): (Fitted & { readonly oneAxis: boolean }) | null {
  const commanded = touches.map(({ direction }) => radians(direction));
  const both = (angle: number) => [1, -Math.cos(angle), -Math.sin(angle)];
  if (touches.length >= 3 && conditionNumber(commanded.map(both)) <= greatestCondition)
    return { ...settle(touches, commanded, radiusOf, reference, both), oneAxis: false };
  const axis = commanded[0] ?? 0;
  const along = (angle: number) => [1, -Math.cos(angle - axis)];
  if (conditionNumber(commanded.map(along)) > greatestCondition) return null;
  return { ...fitted(touches, commanded, radiusOf, reference, along), oneAxis: true };
}

function settle(
  touches: readonly CalibrationTouch[],
  commanded: readonly number[],
  radiusOf: RadiusOf,
  reference: Reference,
  row: (angle: number) => number[],
): Fitted {
  let angles = commanded;
  for (let round = 1; ; round += 1) {
    const solved = fitted(touches, angles, radiusOf, reference, row);
    // Flat faces are met along the axis wherever the stylus stands across it.
    if (reference.kind === 'gap' || reference.kind === 'block') return solved;
    const [, x = 0, y = 0] = solved.fit.parameters;
    const next = touches.map((touch) =>
      reference.kind === 'ring' ? Math.atan2(touch.y - y, touch.x - x) : Math.atan2(y - touch.y, x - touch.x),
    );
    if (
      round === 20 ||
      !isSolvable(next.map(row)) ||
      next.every((angle, index) => angleBetween(angle, angles[index] ?? 0) <= 1e-10)
    )
      return solved;
    angles = next;
  }
}

function fitted(
  touches: readonly CalibrationTouch[],
  angles: readonly number[],
  radiusOf: RadiusOf,
  reference: Reference,
  row: (angle: number) => number[],
): Fitted {
  const half = signedHalf(reference);
  const expected = touches.map((touch, index) => radiusOf(touch, angles[index] ?? 0));
  const fit = leastSquares(
    angles.map(row),
    touches.map(({ x, y }, index) => {
      const angle = angles[index] ?? 0;
      return half - (x * Math.cos(angle) + y * Math.sin(angle)) - (expected[index] ?? 0);
    }),
  );
  return { fit, expected };
}

function spreadOf(
  touches: readonly CalibrationTouch[],
  fit: LeastSquares,
  probe: Probe,
): Verification['spread'] {
  const repeats = pooledSpread(groupedRepeats(touches, fit.residuals));
  if (repeats !== null && (repeats.degreesOfFreedom ?? 0) >= 3 && repeats.standardDeviation > 0)
    return { ...repeats, from: 'touches' };
  const { standardDeviation, degreesOfFreedom } = probe.repeatability;
  return { standardDeviation, degreesOfFreedom, from: 'stated' };
}

function residualOf(fit: LeastSquares, spread: Spread): Verification['residual'] {
  const { degreesOfFreedom, residuals } = fit;
  if (degreesOfFreedom === 0) return null;
  const variance = residuals.reduce((sum, value) => sum + value * value, 0) / degreesOfFreedom;
  const limit = fisherQuantile(0.95, degreesOfFreedom, spread.degreesOfFreedom ?? 1e9);
  return {
    standardDeviation: Math.sqrt(variance),
    degreesOfFreedom,
    tooLarge: variance > limit * Math.max(spread.standardDeviation, 1e-9) ** 2,
  };
}
