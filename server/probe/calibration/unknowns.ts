import { radians } from './touches.ts';

/** Where and how a touch goes, as the columns of the equations need it. */
export interface Approach {
  /** Direction, radians. */
  readonly angle: number;
  /** Spindle angle against that of the calibration, radians. */
  readonly turn: number;
  /** Speed less that of the first touch, mm/s. */
  readonly faster: number;
}

/** What is solved for beside the radius and the centre. */
export interface Unknowns {
  readonly latency: boolean;
  readonly orders: readonly number[];
}

/** Places of the unknowns in a row: r0, c_x, c_y, τ where it is one, then cosine and sine of each order. */
export const latencyColumn = 3;
export const lobeColumn = ({ latency }: Unknowns, index: number): number => (latency ? 4 : 3) + 2 * index;

/**
 * The row of one touch in  ±size/2 − m·n = r0 − c·n − (v − v₁)·τ + Σ a_h·cos h(θ−φ) + b_h·sin h(θ−φ),
 * which is the equation of `error-model.md` section 3 with what is known on the left.
 */
export function rowOf({ angle, turn, faster }: Approach, { latency, orders }: Unknowns): number[] {
  const row = [1, -Math.cos(angle), -Math.sin(angle)];
  if (latency) row.push(-faster);
  for (const order of orders) row.push(...lobeRow({ angle, turn, faster }, order));
  return row;
}

/** cos h(θ−φ), sin h(θ−φ). */
export function lobeRow({ angle, turn }: Approach, order: number): [number, number] {
  return [Math.cos(order * (angle - turn)), Math.sin(order * (angle - turn))];
}

/** Approaches of touches given in degrees and mm/s; a speed or spindle angle that is not stated is everybody's. */
export function approachesOf(
  touches: readonly {
    readonly direction: number;
    readonly speed: number | null;
    readonly spindle: number | null;
  }[],
): Approach[] {
  const [first] = touches;
  const turned = severalSpindles(touches);
  return touches.map(({ direction, speed, spindle }) => ({
    angle: radians(direction),
    turn: turned ? radians(spindle ?? 0) : 0,
    faster: (speed ?? 0) - (first?.speed ?? 0),
  }));
}

/** Whether the spindle stood at two angles or more; a whole turn is none. */
export function severalSpindles(touches: readonly { readonly spindle: number | null }[]): boolean {
  const [first] = touches;
  return touches.some(({ spindle }) => Math.cos(radians((spindle ?? 0) - (first?.spindle ?? 0))) < 1 - 1e-9);
}
