import { type CircleFit, fitCircle, type Point2 } from './circle.ts';
import { type FitQuality, fairCondition, type Refusal } from './fit.ts';
import { leastSquares } from './leastSquares.ts';
import { fitPlane, type PlaneFit } from './plane.ts';
import { qualityOf } from './quality.ts';
import { combine, dot, type Point3 } from './vector.ts';

/** Where one feature of the part was found, across the axis, with the table at this angle, degrees counter-clockwise. */
export interface IndexedPlace {
  readonly angle: number;
  readonly place: Point2;
}

/**
 * Covariance of centre and arm: x, y, x, y. Residuals are those of the coordinates, x and y of each place in turn.
 */
export interface RotationCentre extends FitQuality {
  readonly centre: Point2;
  /** From the centre to the feature at 0°. */
  readonly arm: Point2;
}

/**
 * The centre that a table turns about, from one feature found at two or more known angles: place = centre + turned arm, linear
 * in both, so a feature on the axis itself will do too.
 */
export function rotationCentre(found: readonly IndexedPlace[]): RotationCentre | Refusal {
  const odd = found.findIndex(({ angle, place }) => ![angle, ...place].every(Number.isFinite));
  if (odd >= 0) return { refusal: `Place ${odd + 1} has a coordinate or an angle that is no number.` };
  if (found.length < 2) return { refusal: tooFewAngles };
  const [origin = [0, 0]] = found.map(({ place }) => place);
  const design = found.flatMap(({ angle }) => {
    const [cosine, sine] = [Math.cos((angle * Math.PI) / 180), Math.sin((angle * Math.PI) / 180)];
    return [
      [1, 0, cosine, -sine],
      [0, 1, sine, cosine],
    ];
  });
  const observed = found.flatMap(({ place: [x, y] }) => [x - origin[0], y - origin[1]]);
  const { solution, residuals, inverseNormal, condition } = leastSquares(design, observed);
  if (condition > 1e6) return { refusal: tooFewAngles };
  const [x = 0, y = 0, armX = 0, armY = 0] = solution;
  return {
    centre: [origin[0] + x, origin[1] + y],
    arm: [armX, armY],
    ...qualityOf(residuals, inverseNormal, condition, closeAngles(condition)),
  };
}

const tooFewAngles =
  'The centre of a turn needs one feature found at two or more different angles of the table.';

function closeAngles(condition: number): string[] {
  if (condition <= fairCondition) return [];
  return [
    `The angles of the table lie close together: the centre is known far worse than the places (condition ${condition.toPrecision(3)}). Index further apart, best by 180°.`,
  ];
}

/** The axis through `centre` along `direction`; the quality of both lies in the plane and in the circle. */
export interface RotationAxis {
  readonly centre: Point3;
  readonly direction: Point3;
  /** Of the places: its tilts are the axis's. */
  readonly plane: PlaneFit;
  /** In that plane, along its two directions from its point. */
  readonly circle: CircleFit;
}

/** The axis that a table turns about, from one feature found in space at three or more angles, which need not be known. */
export function rotationAxis(places: readonly Point3[]): RotationAxis | Refusal {
  const plane = fitPlane(places);
  if ('refusal' in plane) return plane;
  const [u, v] = plane.directions;
  const flat = places.map((place): Point2 => {
    const from = combine([1, place], [-1, plane.point]);
    return [dot(from, u), dot(from, v)];
  });
  const circle = fitCircle(flat);
  if ('refusal' in circle) return circle;
  const [x, y] = circle.centre;
  const centre = combine([1, plane.point], [x, u], [y, v]);
  return { centre, direction: plane.normal, plane, circle };
}
