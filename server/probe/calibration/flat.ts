import { type DiameterUncertainty, diameterUncertainty } from './diameterUncertainty.ts';
import { type Implausible, implausibleSize } from './implausible.ts';
import { pooledSpread } from './repeats.ts';
import {
  angleBetween,
  type CalibrationTouch,
  degrees,
  type Reference,
  radians,
  type Spread,
  signedHalf,
} from './touches.ts';

/** What two opposite touches on two parallel faces of known distance say about one axis, mm, degrees. */
export interface FlatCalibration {
  /** Sum of the two effective radii: free of odd lobes, with the even ones in it. */
  readonly effectiveDiameter: number;
  readonly uncertainty: DiameterUncertainty | null;
  /** Direction of the axis, [0, 180). */
  readonly axis: number;
  /** Middle of the faces along the axis, found with the two radii taken as equal. */
  readonly middle: number;
  readonly meanPreTravel: number | null;
  readonly repeatability: Spread | null;
  readonly touches: readonly [number, number];
  readonly spindle: number | null;
  readonly speed: number | null;
}

export type FlatRefusal =
  | Implausible
  /** Rows that go along another axis than the first touch. */
  | { readonly kind: 'several-axes'; readonly rows: readonly number[]; readonly radians: boolean }
  | { readonly kind: 'one-face' }
  | { readonly kind: 'mixed'; readonly what: 'feed' | 'spindle' };

/**
 * Calibrates one axis on a gap (from inside) or a block (from outside): with n₂ = −n₁
 *
 *     r(θ) + r(θ+180°) = ±W − (m₁·n₁ + m₂·n₂) ,   u² = s²·(1/N₁ + 1/N₂) + (U_ref/2)²
 *
 * the difference of the two equations of `error-model.md` section 1, repeated touches averaged. The faces have to
 * stand square to the axis: out of square by α the width along it is W/cos α.
 */
export function calibrateFlat(
  touches: readonly CalibrationTouch[],
  reference: Reference,
  {
    tipDiameter,
    repeatability,
  }: { readonly tipDiameter: number | null; readonly repeatability: Spread | null },
): FlatCalibration | FlatRefusal {
  const [first] = touches;
  if (first === undefined) return { kind: 'one-face' };
  if (touches.some(({ speed }) => speed !== first.speed)) return { kind: 'mixed', what: 'feed' };
  if (touches.some(({ spindle }) => spindle !== first.spindle)) return { kind: 'mixed', what: 'spindle' };
  const axis = radians(first.direction);
  const strays = touches.filter((touch) => Math.abs(Math.sin(radians(touch.direction) - axis)) > square);
  if (strays.length > 0)
    return { kind: 'several-axes', rows: strays.map(({ row }) => row), radians: inRadians(touches) };
  const sides = [0, Math.PI].map((turn) =>
    touches
      .filter((touch) => angleBetween(radians(touch.direction), axis + turn) < 1)
      .map(along(axis + turn)),
  );
  const [ahead = [], behind = []] = sides;
  if (ahead.length === 0 || behind.length === 0) return { kind: 'one-face' };
  const travelled = mean(ahead) + mean(behind);
  const half = signedHalf(reference);
  const fault = faultOf(touches, axis, travelled, reference, tipDiameter);
  if (fault !== null) return fault;
  const effectiveDiameter = 2 * half - travelled;
  const spread = pooledSpread(sides);
  return {
    effectiveDiameter,
    uncertainty: diameterUncertainty(
      1 / ahead.length + 1 / behind.length,
      spread,
      repeatability,
      reference.expandedUncertainty,
    ),
    axis: degrees(axis) % 180,
    middle: ((mean(ahead) - mean(behind)) / 2) * (degrees(axis) < 180 ? 1 : -1),
    meanPreTravel: tipDiameter === null ? null : (tipDiameter - effectiveDiameter) / 2,
    repeatability: spread,
    touches: [ahead.length, behind.length],
    spindle: first.spindle,
    speed: first.speed,
  };
}

/** One degree: farther off it is another axis. */
const square = Math.sin(radians(1));

function along(angle: number): (touch: CalibrationTouch) => number {
  return ({ x, y }) => x * Math.cos(angle) + y * Math.sin(angle);
}

/** Directions that are a half turn apart as they stand, when read as radians. */
function inRadians(touches: readonly CalibrationTouch[]): boolean {
  const [first] = touches;
  return touches.every(
    ({ direction }) =>
      Math.abs(direction) <= 2 * Math.PI + 1e-6 &&
      Math.abs(Math.sin(direction - (first?.direction ?? 0))) < square,
  );
}

function faultOf(
  touches: readonly CalibrationTouch[],
  axis: number,
  travelled: number,
  reference: Reference,
  tipDiameter: number | null,
): Implausible | null {
  const range = (angle: number) => {
    const values = touches.map(along(angle));
    return Math.max(...values) - Math.min(...values);
  };
  if (range(axis + Math.PI / 2) > 2 * range(axis)) return { kind: 'directions', reading: { as: 'swapped' } };
  const half = signedHalf(reference);
  if (travelled * half < 0) return { kind: 'other-kind' };
  return implausibleSize(half - travelled / 2, reference, tipDiameter);
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
