import { type Expression, half, minus, plus } from './expression.ts';
import { type Motion, start } from './motion.ts';
import { diameterOf, type RoundFeature } from './roundFeature.ts';
import type { Plan } from './routine.ts';

export interface Middle {
  readonly x: Expression;
  readonly y: Expression;
}

export interface Chord {
  readonly middle: Expression;
  readonly width: Expression;
}

/**
 * Centre and diameters from chords along X, Y and X again, each through the middle of the one before (NISTIR 6556,
 * Table 6, finds a hole like this).
 */
export function measureByChords(
  plan: Plan,
  motion: Motion,
  feature: RoundFeature,
  again: boolean,
): Middle & { readonly alongX: Expression; readonly alongY: Expression } {
  motion.note('Along X: a chord beside the centre has its middle at the centre in X all the same.');
  let x = chord(plan, motion, feature, 'x', start.x, again ? 'roughX' : 'centreX');
  motion.note('Along Y, through that middle.');
  const y = chord(plan, motion, feature, 'y', start.y, 'centreY');
  if (again) {
    motion.note('Along X again, now through the centre.');
    x = chord(plan, motion, feature, 'x', x.middle, 'centreX');
  }
  motion.note('The diameters take the effective tip diameter; in the centre it cancels.');
  const tip = motion.tip();
  const alongX = motion.set('diameterX', diameterOf(feature.ball, x.width, tip), 'result');
  const alongY = motion.set('diameterY', diameterOf(feature.ball, y.width, tip), 'result');
  return { x: x.middle, y: y.middle, alongX, alongY };
}

/** The middle of a chord along an axis, at which the tip stands afterwards. */
export function chord(
  plan: Plan,
  motion: Motion,
  { touchWall }: RoundFeature,
  axis: 'x' | 'y',
  from: Expression,
  middleName: string,
): Chord {
  const wall = { along: axis, middle: from, width: plan.input('diameter') } as const;
  const lower = touchWall({ ...wall, side: -1, into: `${middleName}Minus` });
  const upper = touchWall({ ...wall, side: 1, into: `${middleName}Plus` });
  const middle = motion.set(middleName, half(plus(lower, upper)), 'half-way');
  motion.across(axis, middle);
  return { middle, width: minus(upper, lower) };
}
