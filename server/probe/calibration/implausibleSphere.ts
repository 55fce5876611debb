import type { Implausible } from './implausible.ts';
import { conditionNumber, dot, leastSquares } from './leastSquares.ts';
import { approachOf, type SphereTouch, type Vector } from './sphere.ts';
import { radians } from './touches.ts';

/** What makes approaches and places of touches on a sphere impossible together; null: nothing. As on a ring, from the places alone. */
export function implausibleSphere(touches: readonly SphereTouch[]): Implausible | { kind: 'upwards' } | null {
  const centre = middleOf(touches);
  if (centre === null) return { kind: 'collinear' };
  const seen = touches.map(({ x, y, z }) => unit([centre[0] - x, centre[1] - y, centre[2] - z]));
  const misfits = (read: (touch: SphereTouch) => Vector) =>
    touches.map((touch, index) => Math.acos(Math.min(1, Math.max(-1, dot(read(touch), seen[index] ?? [])))));
  const agrees = (read: (touch: SphereTouch) => Vector) => misfits(read).every((misfit) => misfit <= near);
  const said = misfits(approachOf);
  if (said.every((misfit) => misfit <= off)) return null;
  if (agrees((touch) => negative(approachOf(touch)))) return { kind: 'other-kind' };
  if (agrees((touch) => approachOf({ ...touch, elevation: -touch.elevation }))) return { kind: 'upwards' };
  const small = touches.every(({ azimuth }) => Math.abs(azimuth) <= 2 * Math.PI + 1e-6);
  if (small && agrees(inRadians)) return { kind: 'directions', reading: { as: 'radians' } };
  if (agrees((touch) => approachOf({ ...touch, azimuth: -touch.azimuth })))
    return { kind: 'directions', reading: { as: 'clockwise' } };
  if (agrees((touch) => approachOf({ ...touch, azimuth: 90 - touch.azimuth })))
    return { kind: 'directions', reading: { as: 'swapped' } };
  return { kind: 'no-sense' };
}

const off = radians(45);
const near = radians(30);

function inRadians({ azimuth, elevation }: SphereTouch): Vector {
  const degree = 180 / Math.PI;
  return approachOf({ azimuth: azimuth * degree, elevation: elevation * degree });
}

/** Centre of the sphere nearest to the stylus centres; null: they stand on a plane. */
function middleOf(touches: readonly SphereTouch[]): Vector | null {
  const mean = (axis: 'x' | 'y' | 'z') =>
    touches.reduce((sum, touch) => sum + touch[axis], 0) / touches.length;
  const [x, y, z] = [mean('x'), mean('y'), mean('z')];
  const places = touches.map((touch): Vector => [touch.x - x, touch.y - y, touch.z - z]);
  const rows = places.map((place) => [...place, 1]);
  if (conditionNumber(rows) > 1e4) return null;
  const { parameters } = leastSquares(
    rows,
    places.map((place) => dot(place, place)),
  );
  return [x + (parameters[0] ?? 0) / 2, y + (parameters[1] ?? 0) / 2, z + (parameters[2] ?? 0) / 2];
}

function negative([x, y, z]: Vector): Vector {
  return [-x, -y, -z];
}

function unit(vector: Vector): Vector {
  const length = Math.hypot(...vector) || 1;
  return [vector[0] / length, vector[1] / length, vector[2] / length];
}
