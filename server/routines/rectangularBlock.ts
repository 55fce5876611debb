import { half, length, minus, plus } from './expression.ts';
import { type Motion, start } from './motion.ts';
import { block } from './nominalPart.ts';
import {
  measureRectangle,
  quarter,
  rectangleInputs,
  rectanglePlaces,
  rectangleResults,
} from './rectangle.ts';
import type { Condition, Plan, Routine } from './routine.ts';
import { usualMargin } from './sharedInputs.ts';
import { standOff, touchFromOutside } from './walls.ts';
import { topBeside } from './widthFeature.ts';

export const rectangularBlock: Routine = {
  name: 'rectangular-block',
  title: 'Rectangular block',
  summary:
    'The centre of a rectangular block becomes a place in X and Y of the work offset; its sizes and its angle are measured.',
  subroutine: { name: 'probe_rectangular_block', number: 8110 },
  inputs: rectangleInputs({
    x: {
      usual: (facts) => Math.max(60, Math.ceil(4 * (usualMargin(facts) + 2))),
      least: () => 10,
    },
    y: {
      usual: (facts) => Math.max(40, Math.ceil(2 * (usualMargin(facts) + 2))),
      least: () => 5,
    },
    depthHelp:
      'How far the tip goes down beside the block from where it starts, to a height where its walls are whole.',
  }),
  results: rectangleResults,
  start: (plan) => [
    'The tip stands over the block, about over its centre, above the part and everything near it: at that height it travels around.',
    `With the tip ${plan.say(plan.amount('depth'))} lower it is beside whole walls, and within ${plan.say(standOff(plan) + plan.tipRadius)} of them nothing else stands.`,
  ],
  cautions: [],
  conditions,
  part: (plan) => ({
    solids: [block(plan.amount('sizeX') / 2, plan.amount('sizeY') / 2, topBeside(plan))],
    ...rectanglePlaces(plan),
  }),
  motion: measureBlock,
};

/** A touch that misses its wall by the corner of the block would measure something else. */
function conditions(plan: Plan): readonly Condition[] {
  const least = plan.amount('margin') + 1;
  const condition = (size: 'sizeX' | 'sizeY', way: Condition['left'], share: string): Condition => ({
    inputs: [size, 'margin'],
    left: way,
    right: length(least),
    message: `${share} of the ${size === 'sizeX' ? 'size in X' : 'size in Y'} must be at least the search margin and ${plan.say(1)}, else a touch may miss its wall.`,
    short: `${size === 'sizeX' ? 'size in X' : 'size in Y'} too small`,
  });
  return [
    condition('sizeX', quarter(plan), 'A quarter'),
    condition('sizeY', half(plan.input('sizeY')), 'Half'),
  ];
}

function measureBlock(plan: Plan, motion: Motion): void {
  const touch = (along: 'x' | 'y', side: 1 | -1, into: string) =>
    touchFromOutside(plan, motion, {
      along,
      middle: start[along],
      side,
      width: plan.input(along === 'x' ? 'sizeX' : 'sizeY'),
      into,
    });
  motion.note('Left of the middle the two walls across Y, from outside.');
  motion.guard('x', minus(start.x, quarter(plan)));
  const frontLeft = touch('y', -1, 'frontLeft');
  const backLeft = touch('y', 1, 'backLeft');
  motion.note('Right of the middle the same two.');
  motion.guard('x', plus(start.x, quarter(plan)));
  const backRight = touch('y', 1, 'backRight');
  const frontRight = touch('y', -1, 'frontRight');
  motion.note('In the middle the two walls across X.');
  motion.guard('y', start.y);
  const right = touch('x', 1, 'right');
  const left = touch('x', -1, 'left');
  measureRectangle(plan, motion, 'outside', { left, right, frontLeft, frontRight, backLeft, backRight });
}
