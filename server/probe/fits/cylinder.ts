import { prattCircle } from './circle.ts';
import { type FitQuality, fairCondition, hopelessCondition, type Refusal } from './fit.ts';
import { type Linearised, levenbergMarquardt, type Minimum } from './levenbergMarquardt.ts';
import { type Gathered, gather, isFlat } from './points.ts';
import { qualityOf } from './quality.ts';
import { combine, dot, type Point3, unit } from './vector.ts';

/**
 * Covariance of the shifts of the axis along `across[0]` and `across[1]`, its tilts towards them, radians, and the radius, in that
 * order. Residuals are positive outside.
 */
export interface CylinderFit extends FitQuality {
  /** On the axis, next to the points' middle. */
  readonly point: Point3;
  /** Unit vector along the axis; its largest component is positive. */
  readonly direction: Point3;
  readonly across: readonly [Point3, Point3];
  readonly radius: number;
}

/**
 * The cylinder with the least sum of squared distances of the points from it. A direction near the axis, where it is known, spares
 * the search from several starts; without one, points that another cylinder fits as well are refused (the corners of a box lie
 * on three).
 */
export function fitCylinder(points: readonly Point3[], near: Point3 | null = null): CylinderFit | Refusal {
  const gathered = gather(points, 3, 6, 'A cylinder');
  if ('refusal' in gathered) return gathered;
  if (isFlat(gathered, 1)) return { refusal: 'The points lie on a line: no cylinder is nearest to them.' };
  if (isFlat(gathered, 2)) {
    return {
      refusal:
        'The points lie in one plane: they do not see the direction of the axis. Touch at two heights or more.',
    };
  }
  const starts = near === null ? everyDirection(gathered) : [unit(near)];
  const minima = starts
    .flatMap((axis) => settled(gathered, axis) ?? [])
    .sort((one, other) => squares(one) - squares(other));
  const [best] = minima;
  if (best === undefined)
    return { refusal: 'The points cannot be told from a plane: no cylinder is nearest to them.' };
  if (minima.some((other) => isRival(best, other)))
    return {
      refusal:
        'Another cylinder fits the points as well: say which way the axis runs, or touch at more heights.',
    };
  return described(gathered, best);
}

/** Another axis, and a sum of squares that noise could make the lesser one. */
function isRival(best: Settled, other: Settled): boolean {
  const sameAxis = Math.abs(dot(axisOf(best), axisOf(other))) > 0.999;
  return !sameAxis && squares(other) <= 4 * squares(best) + 1e-18 * other.residuals.length;
}

/** A minimum, and the frame that its parameters are about. */
interface Settled extends Minimum {
  readonly frame: Frame;
}

/** An axis near to the one sought and two directions across it. */
interface Frame {
  readonly axis: Point3;
  readonly u: Point3;
  readonly v: Point3;
}

/** Fits about this direction and then once more about the one found, where tilts are small and their covariance is plain. */
function settled(gathered: Gathered, axis: Point3): Settled | null {
  const first = fitted(gathered, frameAbout(axis));
  return first === null ? null : fitted(gathered, frameAbout(axisOf(first)));
}

function fitted(gathered: Gathered, frame: Frame): Settled | null {
  const flat = gathered.points.map((point) => [dot(point, frame.u), dot(point, frame.v)] as const);
  const circle = prattCircle(flat);
  if ('refusal' in circle) return null;
  const start = [...circle.centre, 0, 0, circle.radius];
  const found = levenbergMarquardt(start, (parameters) => distances(gathered, frame, parameters));
  const radius = found.parameters[4] ?? 0;
  return found.converged && radius > 0 && radius < 1e4 ? { ...found, frame } : null;
}

function distances({ points }: Gathered, frame: Frame, parameters: readonly number[]): Linearised {
  const [p = 0, q = 0, a = 0, b = 0, radius = 0] = parameters;
  const leaning = combine([1, frame.axis], [a, frame.u], [b, frame.v]);
  const length = Math.hypot(...leaning);
  const axis = unit(leaning);
  const residuals: number[] = [];
  const jacobian: number[][] = [];
  for (const [x = 0, y = 0, z = 0] of points) {
    const from = combine([1, [x, y, z]], [-p, frame.u], [-q, frame.v]);
    const along = dot(from, axis);
    const spoke = combine([1, from], [-along, axis]);
    const away = Math.hypot(...spoke);
    const [eu, ev] = away === 0 ? [0, 0] : [dot(spoke, frame.u) / away, dot(spoke, frame.v) / away];
    residuals.push(away - radius);
    jacobian.push([-eu, -ev, (-along * eu) / length, (-along * ev) / length, -1]);
  }
  return { residuals, jacobian };
}

function described(gathered: Gathered, best: Settled): CylinderFit | Refusal {
  const { condition, inverseNormal } = best.linear;
  if (condition > hopelessCondition)
    return { refusal: 'The points do not see the direction of the axis: touch at two heights or more.' };
  const { middle, scale } = gathered;
  const { u, v } = best.frame;
  const [p = 0, q = 0, , , radius = 0] = best.parameters;
  const on = combine([p * scale, u], [q * scale, v]);
  const found = axisOf(best);
  const largest = [...found].sort((one, other) => Math.abs(other) - Math.abs(one))[0] ?? 0;
  // Tilts are angles: in the points' unit they are shifts over the scale.
  const lengths = [1, 1, 1 / scale, 1 / scale, 1];
  return {
    point: [(middle[0] ?? 0) + on[0], (middle[1] ?? 0) + on[1], (middle[2] ?? 0) + on[2]],
    direction: combine([largest < 0 ? -1 : 1, found]),
    across: [u, v],
    radius: radius * scale,
    ...qualityOf(
      best.residuals.map((residual) => residual * scale),
      inverseNormal.map((row, i) => row.map((value, j) => value * (lengths[i] ?? 1) * (lengths[j] ?? 1))),
      condition,
      condition <= fairCondition
        ? []
        : [
            `The points see the axis badly (condition ${condition.toPrecision(3)}): touch further around and further apart along it.`,
          ],
    ),
  };
}

function axisOf({ frame, parameters }: Settled): Point3 {
  const [, , a = 0, b = 0] = parameters;
  return unit(combine([1, frame.axis], [a, frame.u], [b, frame.v]));
}

/** The principal directions, and thirteen spread over a half of the sphere. */
function everyDirection({ directions }: Gathered): Point3[] {
  const steps = [-1, 0, 1];
  const grid = steps.flatMap((x) => steps.flatMap((y) => steps.map((z): Point3 => [x, y, z])));
  // Each and its opposite are one axis: the second half of the list, after the middle.
  return [...directions.map(([x = 0, y = 0, z = 0]): Point3 => [x, y, z]), ...grid.slice(14).map(unit)];
}

function frameAbout(axis: Point3): Frame {
  const [x, y, z] = axis.map(Math.abs) as [number, number, number];
  const other: Point3 = x <= y && x <= z ? [1, 0, 0] : y <= z ? [0, 1, 0] : [0, 0, 1];
  const u = unit(combine([1, other], [-dot(other, axis), axis]));
  const v: Point3 = [
    axis[1] * u[2] - axis[2] * u[1],
    axis[2] * u[0] - axis[0] * u[2],
    axis[0] * u[1] - axis[1] * u[0],
  ];
  return { axis, u, v };
}

function squares({ residuals }: Settled): number {
  return residuals.reduce((sum, residual) => sum + residual * residual, 0);
}
