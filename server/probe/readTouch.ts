import type { TouchTerm } from './derivedError.ts';
import type { TouchMotion } from './effectiveRadius.ts';

/** A term as the error model sees it. */
export interface ReadTouch {
  readonly kind: 'lateral' | 'axial' | 'oblique' | 'unknown' | 'rotary';
  readonly coefficient: number;
  /** n_i on the axis read: 0 where the touch did not move that axis; 0 too where it is unknown (see `kind`). */
  readonly along: number;
  /** θ of the approach as the probe hangs (less the spindle's turn), degrees; meaningless where it has no lateral part. */
  readonly angle: number;
  /** Name of the angle that the spindle's turn counts from, where that is not known. */
  readonly turnedFrom: string | null;
  readonly speed: number | null;
  readonly motion: TouchMotion;
  readonly from: 'latched' | 'stopped';
}

/** The terms that count (c_i ≠ 0), each with what kind of touch it is. */
export function readTouches(terms: readonly TouchTerm[]): readonly ReadTouch[] {
  return terms.filter((term) => term.coefficient !== 0).map(readTouch);
}

type Vector = readonly [number, number, number];

const linearAxes = ['x', 'y', 'z'];

// Directions come from differences of coordinates, so rounding leaves a trace on the other axes.
const single = 1e-6;

function readTouch(term: TouchTerm): ReadTouch {
  const { coefficient, speed, motion, from } = term;
  const index = linearAxes.indexOf(term.axis);
  const direction = term.direction ?? directionOfSign(index, term.sign);
  const common = { coefficient, speed, motion, from, turnedFrom: term.turnedFrom ?? null };
  if (index < 0) return { ...common, kind: 'rotary', along: 0, angle: 0 };
  if (direction === null) return { ...common, kind: 'unknown', along: term.sign ?? 0, angle: 0 };
  const along = wholeSign(term.sign ?? direction[index] ?? 0);
  const angle = (Math.atan2(direction[1], direction[0]) * 180) / Math.PI - (term.turn ?? 0);
  return { ...common, kind: kindOf(direction), along, angle };
}

function kindOf(direction: Vector): ReadTouch['kind'] {
  const moving = direction.filter((part) => Math.abs(part) > single).length;
  if (moving !== 1) return 'oblique';
  return Math.abs(direction[2]) > single ? 'axial' : 'lateral';
}

/** A whole approach sign on the axis read leaves nothing for the other axes. */
function directionOfSign(index: number, sign: number | null): Vector | null {
  if (index < 0 || sign === null || Math.abs(Math.abs(sign) - 1) > single) return null;
  const unit = Math.sign(sign);
  return [index === 0 ? unit : 0, index === 1 ? unit : 0, index === 2 ? unit : 0];
}

function wholeSign(sign: number): number {
  const whole = Math.round(sign);
  return Math.abs(sign - whole) <= single ? whole + 0 : sign;
}
