import type { FitQuality, Refusal } from './fit.ts';
import { fairCondition } from './fit.ts';
import { gather, isFlat } from './points.ts';
import { qualityOf } from './quality.ts';
import type { Point3 } from './vector.ts';

/**
 * Covariance of the offset along the normal at `point` and of the tilts towards `directions[0]` and `directions[1]`, radians, in
 * that order; they are independent there. Residuals are positive on the normal's side.
 */
export interface PlaneFit extends FitQuality {
  /** The points' middle, in the plane. */
  readonly point: Point3;
  /** Unit vector; its largest component is positive. */
  readonly normal: Point3;
  /** The points' principal directions in the plane, widest first. */
  readonly directions: readonly [Point3, Point3];
}

/** The plane with the least sum of squared perpendicular distances (Pearson, Phil. Mag. (6) 2 (1901) 559–572). */
export function fitPlane(points: readonly Point3[]): PlaneFit | Refusal {
  const gathered = gather(points, 3, 3, 'A plane');
  if ('refusal' in gathered) return gathered;
  if (isFlat(gathered, 1))
    return { refusal: 'The points lie on a line: every plane through it fits them alike.' };
  const { middle, scale, extents } = gathered;
  const [wide = 1, narrow = 1, thickness = 0] = extents;
  if (thickness > 0.999 * narrow)
    return { refusal: 'The points spread alike across every plane: none is nearer to them than others.' };
  const [u, v, n] = gathered.directions.map(([x = 0, y = 0, z = 0]): Point3 => [x, y, z]) as [
    Point3,
    Point3,
    Point3,
  ];
  const largest = [...n].sort((one, other) => Math.abs(other) - Math.abs(one))[0] ?? 0;
  const sign = largest < 0 ? -1 : 1;
  const normal: Point3 = [sign * n[0], sign * n[1], sign * n[2]];
  const residuals = gathered.points.map(
    ([x = 0, y = 0, z = 0]) => scale * (x * normal[0] + y * normal[1] + z * normal[2]),
  );
  const count = points.length;
  const inverse = [1 / count, 1 / (count * (wide * scale) ** 2), 1 / (count * (narrow * scale) ** 2)];
  const diagonal = inverse.map((value, row) => inverse.map((_, column) => (row === column ? value : 0)));
  return {
    point: [middle[0] ?? 0, middle[1] ?? 0, middle[2] ?? 0],
    normal,
    directions: [u, v],
    ...qualityOf(residuals, diagonal, wide / narrow, narrowStrip(wide / narrow)),
  };
}

function narrowStrip(ratio: number): string[] {
  if (ratio <= fairCondition) return [];
  return [
    `The points stand in a strip ${ratio.toPrecision(3)} times as long as wide: the tilt across it is known that much worse.`,
  ];
}
