import type { Point } from '../part/solid.ts';
import type { Scope } from '../program/evaluate.ts';
import { unitScale } from '../program/parameters.ts';
import { isNumber } from '../program/value.ts';
import { offsetTurn, workZero } from '../program/workZero.ts';

/** Where the work coordinates lie on the machine: mm, machine coordinates of the gauge line. */
export interface ZeroPoint {
  readonly origin: Point;
  /** mm of one program unit. */
  readonly unit: number;
  readonly cos: number;
  readonly sin: number;
}

/** null: an offset in force is no number. */
export function zeroPoint(scope: Scope): ZeroPoint | null {
  const unit = 1 / unitScale(scope.state, scope.world);
  const [x, y, z] = [workZero(0, scope), workZero(1, scope), workZero(2, scope)];
  if (!isNumber(x) || !isNumber(y) || !isNumber(z)) return null;
  const turn = (offsetTurn(scope) * Math.PI) / 180;
  return { origin: [x * unit, y * unit, z * unit], unit, cos: Math.cos(turn), sin: Math.sin(turn) };
}

/** Work coordinates, program units, as a machine position, mm. */
export function onMachine({ origin, unit, cos, sin }: ZeroPoint, work: readonly number[]): Point {
  const [x = 0, y = 0, z = 0] = work;
  return [
    (x * cos - y * sin) * unit + origin[0],
    (x * sin + y * cos) * unit + origin[1],
    z * unit + origin[2],
  ];
}

/** A machine position, mm, as work coordinates, program units. */
export function inWork({ origin, unit, cos, sin }: ZeroPoint, machine: Point): [number, number, number] {
  const [x, y, z] = [machine[0] - origin[0], machine[1] - origin[1], machine[2] - origin[2]];
  return [(x * cos + y * sin) / unit, (y * cos - x * sin) / unit, z / unit];
}
