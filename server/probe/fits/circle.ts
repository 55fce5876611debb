import { EigenvalueDecomposition, Matrix, SVD } from 'ml-matrix';
import { type FitQuality, fairCondition, hopelessCondition, type Refusal } from './fit.ts';
import { type Linearised, levenbergMarquardt } from './levenbergMarquardt.ts';
import { type Gathered, gather, isFlat } from './points.ts';
import { qualityOf } from './quality.ts';

export type Point2 = readonly [number, number];

export interface Circle {
  readonly centre: Point2;
  readonly radius: number;
}

/** Covariance of centre x, centre y and radius, in that order. */
export interface CircleFit extends Circle, FitQuality {
  /** Largest angle at the centre that holds all points, degrees. */
  readonly arc: number;
}

/**
 * The circle with the least sum of squared distances of the points from it: the orthogonal fit (Gander, Golub & Strebel, BIT 34
 * (1994) 558–578) from an algebraic start. Residuals are positive outside.
 */
export function fitCircle(points: readonly Point2[]): CircleFit | Refusal {
  const gathered = gathersCircle(points);
  if ('refusal' in gathered) return gathered;
  const start = pratt(gathered);
  const found = levenbergMarquardt([...start.centre, start.radius], (parameters) =>
    distances(gathered, parameters),
  );
  const [x = 0, y = 0, radius = 0] = found.parameters;
  const { condition } = found.linear;
  if (!found.converged || radius > 1e4 || condition > hopelessCondition)
    return { refusal: 'The points cannot be told from a line: no circle is nearest to them.' };
  const circle = outOf(gathered, { centre: [x, y], radius });
  const arc = arcOf(gathered.points.map(([px = 0, py = 0]) => [px - x, py - y]));
  return {
    ...circle,
    arc,
    ...qualityOf(
      found.residuals.map((residual) => residual * gathered.scale),
      found.linear.inverseNormal,
      condition,
      shortArc(arc, condition),
    ),
  };
}

/**
 * The algebraic circle of Pratt, Computer Graphics 21 (1987) 145–152, by singular values: A(x² + y²) + Bx + Cy + D = 0 with
 * B² + C² − 4AD = 1. Not the nearest one, but never far, and found without a start.
 */
export function prattCircle(points: readonly Point2[]): Circle | Refusal {
  const gathered = gathersCircle(points);
  return 'refusal' in gathered ? gathered : outOf(gathered, pratt(gathered));
}

function gathersCircle(points: readonly Point2[]): Gathered | Refusal {
  const gathered = gather(points, 2, 3, 'A circle');
  if ('refusal' in gathered) return gathered;
  if (isFlat(gathered, 1)) return { refusal: 'The points lie on a line: no circle goes near all of them.' };
  const places = new Set(gathered.points.map((point) => point.map((value) => value.toFixed(9)).join()));
  return places.size < 3
    ? { refusal: 'A circle needs points in three places; these stand in two.' }
    : gathered;
}

/** Chernov's way of solving Pratt's problem without squaring the points' moments. */
function pratt({ points }: Gathered): Circle {
  const rows = points.map(([x = 0, y = 0]) => [x * x + y * y, x, y, 1]);
  while (rows.length < 4) rows.push([0, 0, 0, 0]);
  const { diagonal, rightSingularVectors: v } = new SVD(rows);
  const isExact = (diagonal[3] ?? 0) < 1e-12 * (diagonal[0] ?? 0);
  const [a = 0, b = 0, c = 0, d = 0] = isExact ? v.getColumn(3) : constrained(diagonal, v);
  return {
    centre: [-b / (2 * a), -c / (2 * a)],
    radius: Math.sqrt(b * b + c * c - 4 * a * d) / (2 * Math.abs(a)),
  };
}

/** Of the eigenvalues one is negative; the least of the others is the circle's. */
function constrained(singular: readonly number[], v: Matrix): number[] {
  const root = v.mmul(Matrix.diag([...singular])).mmul(v.transpose());
  const form = root.mmul(new Matrix(inverseConstraint)).mmul(root);
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(form, { assumeSymmetric: true });
  const order = realEigenvalues.map((_, index) => index);
  order.sort((one, other) => (realEigenvalues[one] ?? 0) - (realEigenvalues[other] ?? 0));
  const vector = eigenvectorMatrix.getColumnVector(order[1] ?? 0);
  const undone = v.mmul(Matrix.diag(singular.map((value) => 1 / value))).mmul(v.transpose());
  return undone.mmul(vector).getColumn(0);
}

const inverseConstraint = [
  [0, 0, 0, -0.5],
  [0, 1, 0, 0],
  [0, 0, 1, 0],
  [-0.5, 0, 0, 0],
];

function distances({ points }: Gathered, [x = 0, y = 0, radius = 0]: readonly number[]): Linearised {
  const residuals: number[] = [];
  const jacobian: number[][] = [];
  for (const [px = 0, py = 0] of points) {
    const away = Math.hypot(px - x, py - y);
    residuals.push(away - radius);
    jacobian.push(away === 0 ? [0, 0, -1] : [(x - px) / away, (y - py) / away, -1]);
  }
  return { residuals, jacobian };
}

function outOf({ middle, scale }: Gathered, { centre: [x, y], radius }: Circle): Circle {
  return {
    centre: [(middle[0] ?? 0) + x * scale, (middle[1] ?? 0) + y * scale],
    radius: radius * scale,
  };
}

/** A full turn less the largest gap between neighbours, degrees. */
export function arcOf(spokes: readonly Point2[]): number {
  const angles = spokes.map(([x, y]) => Math.atan2(y, x)).sort((one, other) => one - other);
  const gaps = angles.map((angle, index) => (angles[index + 1] ?? (angles[0] ?? 0) + 2 * Math.PI) - angle);
  const largest = gaps.reduce((most, gap) => Math.max(most, gap));
  return 360 - (largest * 180) / Math.PI;
}

function shortArc(arc: number, condition: number): string[] {
  if (condition <= fairCondition) return [];
  return [
    `The points span ${arc.toFixed(arc < 10 ? 1 : 0)}° of the circle: centre and radius cannot be told apart well (condition ${condition.toPrecision(3)}).`,
  ];
}
