import { directionOf, type Level, sharesOf } from './along.ts';
import { type Expression, length, minus, scaled } from './expression.ts';
import { type Motion, start } from './motion.ts';
import type { Place } from './nominalPart.ts';
import type { Input, Plan } from './routine.ts';

/** The direction that a feature is measured along: an axis, or an angle in the plane. */
export const acrossInputs = (what: string): readonly Input[] => [
  {
    name: 'across',
    title: 'Measured along',
    help: `The direction from one side of the ${what} to the other.`,
    type: 'choice',
    default: () => 'X',
    choices: [
      { value: 'X', title: 'along X' },
      { value: 'Y', title: 'along Y' },
      { value: 'angle', title: 'along an angle' },
    ],
    required: true,
    argument: false,
  },
  angleInput('Direction of the measurement, counter-clockwise from X+. Used along an angle alone.', 30),
];

export function angleInput(help: string, usual: number): Input {
  return {
    name: 'angle',
    title: 'Angle',
    help,
    type: 'angle',
    default: () => usual,
    least: () => -180,
    greatest: () => 180,
    required: false,
    argument: false,
  };
}

/** The line through the start that the choice names. */
export function lineAcross(plan: Plan): Level {
  const across = plan.choice('across');
  if (across === 'X') return 'x';
  return across === 'Y' ? 'y' : { base: start, degrees: plan.amount('angle') };
}

/** Coordinate along the line of the place where the tip starts. */
export function startOn(along: Level): Expression {
  return typeof along === 'string' ? start[along] : length(0);
}

/**
 * What lies across the line at `measured` gets a coordinate. At an angle the coordinate is the distance from the origin
 * along the line, and the origin moves along it alone: nothing is known of the other direction.
 */
export function writeAcross(motion: Motion, along: Level, measured: Expression, becomes: Expression): void {
  if (typeof along === 'string') {
    motion.write([{ axis: along, measured, becomes }]);
    return;
  }
  const shift = motion.set('shift', minus(measured, becomes), 'the origin moves so far along the angle');
  motion.write(
    sharesOf(along).map(({ axis, share }) => ({ axis, measured: scaled(shift, share), becomes: length(0) })),
  );
}

/** What `writeAcross` must come to where the feature lies `at` mm from the start. */
export function placeAcross(along: Level, at: number, becomes: number): Place {
  return { direction: directionOf(along), at, becomes };
}
