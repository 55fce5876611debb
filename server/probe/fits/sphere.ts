import { type FitQuality, fairCondition, hopelessCondition, type Refusal } from './fit.ts';
import { leastSquares } from './leastSquares.ts';
import { type Linearised, levenbergMarquardt } from './levenbergMarquardt.ts';
import { type Gathered, gather, isFlat } from './points.ts';
import { qualityOf } from './quality.ts';
import type { Point3 } from './vector.ts';

/** Covariance of centre x, y, z and radius, in that order. Residuals are positive outside. */
export interface SphereFit extends FitQuality {
  readonly centre: Point3;
  readonly radius: number;
}

/** The sphere with the least sum of squared distances of the points from it, from the linear algebraic one. */
export function fitSphere(points: readonly Point3[]): SphereFit | Refusal {
  const gathered = gather(points, 3, 4, 'A sphere');
  if ('refusal' in gathered) return gathered;
  if (isFlat(gathered, 1)) return { refusal: 'The points lie on a line: no sphere goes near all of them.' };
  if (isFlat(gathered, 2))
    return {
      refusal:
        'The points lie in one plane: spheres of every size go through a circle of it. Touch the pole too.',
    };
  const found = levenbergMarquardt(algebraic(gathered), (parameters) => distances(gathered, parameters));
  const { condition, inverseNormal } = found.linear;
  const [x = 0, y = 0, z = 0, radius = 0] = found.parameters;
  if (!found.converged || radius > 1e4 || condition > hopelessCondition)
    return { refusal: 'The points cannot be told from a plane: no sphere is nearest to them.' };
  const { middle, scale } = gathered;
  return {
    centre: [(middle[0] ?? 0) + x * scale, (middle[1] ?? 0) + y * scale, (middle[2] ?? 0) + z * scale],
    radius: radius * scale,
    ...qualityOf(
      found.residuals.map((residual) => residual * scale),
      inverseNormal,
      condition,
      smallCap(condition),
    ),
  };
}

/** x² + y² + z² = 2ax + 2by + 2cz + d, linear in a, b, c, d. */
function algebraic({ points }: Gathered): number[] {
  const design = points.map(([x = 0, y = 0, z = 0]) => [2 * x, 2 * y, 2 * z, 1]);
  const squares = points.map((point) => point.reduce((sum, value) => sum + value * value, 0));
  const [a = 0, b = 0, c = 0, d = 0] = leastSquares(design, squares).solution;
  return [a, b, c, Math.sqrt(Math.max(d + a * a + b * b + c * c, 0))];
}

function distances({ points }: Gathered, [x = 0, y = 0, z = 0, radius = 0]: readonly number[]): Linearised {
  const residuals: number[] = [];
  const jacobian: number[][] = [];
  for (const [px = 0, py = 0, pz = 0] of points) {
    const away = Math.hypot(px - x, py - y, pz - z);
    residuals.push(away - radius);
    jacobian.push(away === 0 ? [0, 0, 0, -1] : [(x - px) / away, (y - py) / away, (z - pz) / away, -1]);
  }
  return { residuals, jacobian };
}

function smallCap(condition: number): string[] {
  if (condition <= fairCondition) return [];
  return [
    `The points cover a small part of the sphere: centre and radius cannot be told apart well (condition ${condition.toPrecision(3)}).`,
  ];
}
