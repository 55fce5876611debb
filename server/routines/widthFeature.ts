import { lineAcross, placeAcross, startOn, writeAcross } from './across.ts';
import { alongFromOrigin, type Level } from './along.ts';
import { type Expression, half, minus, plus } from './expression.ts';
import type { Motion } from './motion.ts';
import type { NominalPart } from './nominalPart.ts';
import type { Facts, Input, Plan, Result } from './routine.ts';
import type { Wall } from './walls.ts';

export const widthResults: readonly Result[] = [
  { name: 'middle', title: 'the middle', kind: 'coordinate' },
  { name: 'measuredWidth', title: 'the width', kind: 'size' },
];

export function widthInput(
  help: string,
  usual: (facts: Facts) => number,
  least: (facts: Facts) => number,
): Input {
  return {
    name: 'width',
    title: 'Width',
    help,
    type: 'length',
    default: usual,
    least,
    greatest: () => 1000,
    required: true,
    argument: true,
  };
}

/** Both walls, the middle between them, where the tip rises, and what is written. */
export function measureWidth(
  plan: Plan,
  motion: Motion,
  along: Level,
  ball: 'inside' | 'outside',
  touch: (wall: Wall) => Expression,
): void {
  const wall = { along, middle: startOn(along), width: plan.input('width') };
  const lower = touch({ ...wall, side: -1, into: 'lower' });
  const upper = touch({ ...wall, side: 1, into: 'upper' });
  motion.note('In the middle the effective tip diameter cancels; the width needs it.');
  const between = motion.set('between', half(plus(lower, upper)), 'half-way');
  motion.across(along, between);
  motion.rise();
  const middle = motion.set('middle', alongFromOrigin(along, between), 'result');
  const tip = motion.tip();
  const size = ball === 'inside' ? plus : minus;
  motion.set('measuredWidth', size(minus(upper, lower), tip), 'result');
  writeAcross(motion, along, middle, plan.input('becomes'));
}

/** Nominal place and width. */
export function widthPlaces(plan: Plan): Pick<NominalPart, 'places' | 'results'> {
  return {
    places: [placeAcross(lineAcross(plan), 0, plan.amount('becomes'))],
    results: { measuredWidth: plan.amount('width') },
  };
}

/** Where the tip starts above a part beside or in which it goes down by the depth, the part's top, mm. */
export function topBeside(plan: Plan): number {
  return -(plan.amount('depth') - plan.tipRadius) / 2;
}

/** Of the direction of measurement, from X+. */
export function degreesOf(plan: Plan): number {
  const across = plan.choice('across');
  if (across === 'X') return 0;
  return across === 'Y' ? 90 : plan.amount('angle');
}
