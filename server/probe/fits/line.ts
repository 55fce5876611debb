import type { Point2 } from './circle.ts';
import type { FitQuality, Refusal } from './fit.ts';
import { gather, isFlat } from './points.ts';
import { propagated, qualityOf } from './quality.ts';

/**
 * Covariance of the offset across the line at `point` and of its angle, radians, in that order; they are independent there.
 * Residuals are positive on the left of the direction.
 */
export interface LineFit extends FitQuality {
  /** The points' middle, on the line. */
  readonly point: Point2;
  /** Unit vector, from the first point's side to the last one's. */
  readonly direction: Point2;
}

/** The line with the least sum of squared perpendicular distances (Pearson, Phil. Mag. (6) 2 (1901) 559–572). */
export function fitLine(points: readonly Point2[]): LineFit | Refusal {
  const gathered = gather(points, 2, 2, 'A line');
  if ('refusal' in gathered) return gathered;
  const { middle, scale, directions, extents } = gathered;
  if (!isFlat(gathered, 1) && (extents[1] ?? 0) > 0.999 * (extents[0] ?? 0))
    return { refusal: 'The points spread alike in every direction: no line is nearer to them than others.' };
  const [first = [], last = []] = [gathered.points[0], gathered.points.at(-1)];
  const [ux = 1, uy = 0] = directions[0] ?? [];
  const forwards =
    ((last[0] ?? 0) - (first[0] ?? 0)) * ux + ((last[1] ?? 0) - (first[1] ?? 0)) * uy >= 0 ? 1 : -1;
  const direction: Point2 = [forwards * ux, forwards * uy];
  const residuals = gathered.points.map(([x = 0, y = 0]) => scale * (y * direction[0] - x * direction[1]));
  const count = points.length;
  const along = (extents[0] ?? 0) * scale;
  return {
    point: [middle[0] ?? 0, middle[1] ?? 0],
    direction,
    // Offset and angle are two orthogonal columns, so their scaled condition is 1.
    ...qualityOf(
      residuals,
      [
        [1 / count, 0],
        [0, 1 / (count * along ** 2)],
      ],
      1,
      [],
    ),
  };
}

/** Where two lines cross. */
export interface Corner {
  readonly point: Point2;
  /** Angle between the directions, 0…180 degrees. */
  readonly angle: number;
  /** Of x and y, from the covariances of the lines; null where one of them has none. */
  readonly covariance: readonly (readonly number[])[] | null;
}

/** The crossing of two fitted lines, or why there is none. */
export function cornerOf(one: LineFit, other: LineFit): Corner | Refusal {
  const [a, b] = [one.direction, other.direction];
  const cross = a[0] * b[1] - a[1] * b[0];
  const angle = (Math.atan2(Math.abs(cross), a[0] * b[0] + a[1] * b[1]) * 180) / Math.PI;
  if (Math.abs(cross) < 1e-6) return { refusal: 'The two lines are parallel: they make no corner.' };
  const gap: Point2 = [other.point[0] - one.point[0], other.point[1] - one.point[1]];
  const alongOne = (gap[0] * b[1] - gap[1] * b[0]) / cross;
  const alongOther = (gap[0] * a[1] - gap[1] * a[0]) / cross;
  const point: Point2 = [one.point[0] + alongOne * a[0], one.point[1] + alongOne * a[1]];
  if (one.covariance === null || other.covariance === null) return { point, angle, covariance: null };
  // A line that shifts by 1 across itself moves the corner along the other one by 1/sin of the angle.
  const byOne = [-b[0] / cross, -b[1] / cross];
  const byOther = [a[0] / cross, a[1] / cross];
  const [x, y] = [0, 1].map((axis) => [
    byOne[axis] ?? 0,
    (byOne[axis] ?? 0) * alongOne,
    byOther[axis] ?? 0,
    (byOther[axis] ?? 0) * alongOther,
  ]) as [number[], number[]];
  return { point, angle, covariance: propagated(blocks(one.covariance, other.covariance), [x, y]) };
}

function blocks(one: readonly (readonly number[])[], other: readonly (readonly number[])[]): number[][] {
  return [...one.map((row) => [...row, 0, 0]), ...other.map((row) => [0, 0, ...row])];
}
