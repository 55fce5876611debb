import type { Harmonic } from '../probe.ts';
import { type DiameterUncertainty, diameterUncertainty } from './diameterUncertainty.ts';
import {
  conditionNumber,
  dot,
  isSolvable,
  type LeastSquares,
  leastSquares,
  residualSpread,
} from './leastSquares.ts';
import { greatestCondition } from './observability.ts';
import { outlyingObservations } from './outliers.ts';
import { type Reference, radians, type Spread, signedHalf } from './touches.ts';

/** One touch of a sphere: mm, mm/s; the approach by azimuth (from X+) and elevation (−90: straight down), degrees. */
export interface SphereTouch {
  readonly row: number;
  readonly azimuth: number;
  readonly elevation: number;
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly speed: number | null;
}

export interface SphereCalibration {
  /** Twice the lateral effective radius. */
  readonly effectiveDiameter: number;
  readonly uncertainty: DiameterUncertainty | null;
  readonly lateralRadius: number;
  /** null: the touches cannot tell it from the lateral one. */
  readonly axialRadius: number | null;
  readonly axialUncertainty: DiameterUncertainty | null;
  /** Order 3 of a lateral touch where the touches show it. */
  readonly harmonics: readonly Harmonic[];
  readonly notObservable: readonly ('axial' | 'order-3')[];
  readonly centre: Vector;
  /** Range of the distances from the centre of the one sphere of least squares (ISO 10360-5: probing form error). */
  readonly form: number;
  readonly residualStandardDeviation: number | null;
  readonly degreesOfFreedom: number;
  readonly largestResidual: number;
  readonly condition: number;
  readonly meanPreTravel: number | null;
  readonly directions: readonly {
    readonly row: number;
    readonly effectiveRadius: number;
    readonly residual: number;
  }[];
  readonly outliers: readonly number[];
  readonly speed: number | null;
}

export type Vector = readonly [number, number, number];

export interface SphereModel {
  readonly axial: boolean;
  readonly lobes: boolean;
}

/**
 * Calibrates on a sphere of known diameter, touched from outside: a plug in space,
 *
 *     (m − c)·n = −D_ref/2 − r(n) ,   r(n) = r_lat·cos²ε + r_ax·sin²ε + cos ε·(a₃·cos 3α + b₃·sin 3α)
 *
 * with α the azimuth and ε the elevation of the approach n. The squares are the quadratic form that is r_lat in every
 * lateral direction and r_ax along the axis; the lobes of the three supports fade with cos ε. Both are our own way from
 * one end to the other, exact at the ends. n is taken again from the centre found, as on a plug. Terms enter while the condition number stays
 * ≤ 20 and touches suffice: radius and centre first (4 touches), the axial radius (5), the lobes (7).
 * @returns null where the touches do not fix a sphere
 */
export function calibrateSphere(
  touches: readonly SphereTouch[],
  reference: Reference<'sphere'>,
  {
    tipDiameter,
    repeatability,
  }: { readonly tipDiameter: number | null; readonly repeatability: Spread | null },
): SphereCalibration | null {
  const commanded = touches.map(approachOf);
  const fits = (model: SphereModel) =>
    conditionNumber(commanded.map((approach) => sphereRow(approach, model))) <= greatestCondition;
  let model: SphereModel = { axial: false, lobes: false };
  if (!fits(model)) return null;
  if (fits({ ...model, axial: true })) model = { ...model, axial: true };
  if (fits({ ...model, lobes: true })) model = { ...model, lobes: true };
  const solved = solve(touches, commanded, reference, model);
  const { fit } = solved;
  const spread = residualSpread(fit);
  const found =
    spread === null ? null : { standardDeviation: spread, degreesOfFreedom: fit.degreesOfFreedom };
  const uncertaintyOf = (column: number, times: number) =>
    diameterUncertainty(
      times * (fit.inverse[column]?.[column] ?? 0),
      found,
      repeatability,
      (reference.expandedUncertainty * Math.sqrt(times)) / 2,
    );
  const [lateralRadius = 0] = fit.parameters;
  const lobes = fit.parameters.slice(model.axial ? 5 : 4);
  const outlying = outlyingObservations(
    solved.approaches.map((approach) => sphereRow(approach, model)),
    solved.observed,
  );
  return {
    effectiveDiameter: 2 * lateralRadius,
    uncertainty: uncertaintyOf(0, 4),
    lateralRadius,
    axialRadius: model.axial ? (fit.parameters[4] ?? 0) : null,
    axialUncertainty: model.axial ? uncertaintyOf(4, 1) : null,
    harmonics: model.lobes ? [{ order: 3, cosine: lobes[0] ?? 0, sine: lobes[1] ?? 0 }] : [],
    notObservable: [...(model.axial ? [] : ['axial' as const]), ...(model.lobes ? [] : ['order-3' as const])],
    centre: centreOf(fit),
    form: formOf(touches, commanded, reference),
    residualStandardDeviation: spread,
    degreesOfFreedom: fit.degreesOfFreedom,
    largestResidual: Math.max(...fit.residuals.map(Math.abs)),
    condition: conditionNumber(commanded.map((approach) => sphereRow(approach, model))),
    meanPreTravel: tipDiameter === null ? null : tipDiameter / 2 - lateralRadius,
    directions: touches.map(({ row }, index) => ({
      row,
      effectiveRadius: (solved.observed[index] ?? 0) + dot(centreOf(fit), solved.approaches[index] ?? []),
      residual: fit.residuals[index] ?? 0,
    })),
    outliers: outlying.map((index) => touches[index]?.row ?? 0),
    speed: touches[0]?.speed ?? null,
  };
}

export function approachOf({
  azimuth,
  elevation,
}: {
  readonly azimuth: number;
  readonly elevation: number;
}): Vector {
  const [a, e] = [radians(azimuth), radians(elevation)];
  return [Math.cos(e) * Math.cos(a), Math.cos(e) * Math.sin(a), Math.sin(e)];
}

/** Columns: lateral (or only) radius, centre, then the axial radius, then the lobes. */
export function sphereRow([x, y, z]: Vector, { axial, lobes }: SphereModel): number[] {
  const lateral = Math.hypot(x, y);
  const row = [axial ? lateral ** 2 : 1, -x, -y, -z];
  if (axial) row.push(z ** 2);
  if (lobes) {
    const azimuth = Math.atan2(y, x);
    row.push(lateral * Math.cos(3 * azimuth), lateral * Math.sin(3 * azimuth));
  }
  return row;
}

interface Solution {
  readonly fit: LeastSquares;
  readonly observed: readonly number[];
  readonly approaches: readonly Vector[];
}

function solve(
  touches: readonly SphereTouch[],
  commanded: readonly Vector[],
  reference: Reference<'sphere'>,
  model: SphereModel,
): Solution {
  const rows = (approaches: readonly Vector[]) => approaches.map((approach) => sphereRow(approach, model));
  let approaches = commanded;
  for (let round = 1; ; round += 1) {
    const observed = touches.map(
      ({ x, y, z }, index) => signedHalf(reference) - dot([x, y, z], approaches[index] ?? []),
    );
    const fit = leastSquares(rows(approaches), observed);
    const next = touches.map((touch) => towards(touch, centreOf(fit)));
    const moved = Math.max(
      ...next.map((approach, index) =>
        Math.hypot(...approach.map((part, axis) => part - (approaches[index]?.[axis] ?? 0))),
      ),
    );
    if (moved <= 1e-10 || round === 20 || !isSolvable(rows(next))) return { fit, observed, approaches };
    approaches = next;
  }
}

function centreOf({ parameters: [, x = 0, y = 0, z = 0] }: LeastSquares): Vector {
  return [x, y, z];
}

function towards({ x, y, z }: SphereTouch, centre: Vector): Vector {
  const [a, b, c] = [centre[0] - x, centre[1] - y, centre[2] - z];
  const length = Math.hypot(a, b, c) || 1;
  return [a / length, b / length, c / length];
}

function formOf(
  touches: readonly SphereTouch[],
  commanded: readonly Vector[],
  reference: Reference<'sphere'>,
): number {
  const { fit } = solve(touches, commanded, reference, { axial: false, lobes: false });
  return Math.max(...fit.residuals) - Math.min(...fit.residuals);
}

/**
 * The 25 touches that ISO 10360-5 recommends for a hemisphere (2010, 6.2.3; from memory): the pole, four at 22.5° from it,
 * eight at 45°, four at 67.5° and eight on the equator, each ring turned 22.5° against the one before.
 */
export function hemispherePattern(): readonly { readonly azimuth: number; readonly elevation: number }[] {
  return [
    [0, 1],
    [22.5, 4],
    [45, 8],
    [67.5, 4],
    [90, 8],
  ].flatMap(([polar = 0, count = 0], ring) =>
    Array.from({ length: count }, (_, index) => ({
      // The stylus stands outwards of the surface and goes inwards.
      azimuth: (180 + 22.5 * Math.max(0, ring - 1) + (360 * index) / count) % 360,
      elevation: polar - 90,
    })),
  );
}
