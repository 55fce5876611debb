import { half, length, shifted } from './expression.ts';
import type { Motion } from './motion.ts';
import {
  ballAtWall,
  measureRound,
  roundFeatureInputs,
  roundFeatureResults,
  writeCentre,
} from './roundFeature.ts';
import type { Condition, Plan, Routine } from './routine.ts';

export const boss: Routine = {
  name: 'boss',
  title: 'Boss',
  summary:
    'The centre of a round boss becomes a place in X and Y of the work offset; its diameter is measured along both.',
  subroutine: { name: 'probe_boss', number: 8103 },
  inputs: roundFeatureInputs({
    usualDiameter: 30,
    leastDiameter: () => 2,
    depthHelp:
      'How far the tip goes down beside the boss from where it starts, to a height where its wall is whole.',
  }),
  results: roundFeatureResults,
  start: (plan) => [
    'The tip stands over the boss, about over its centre, above the part and everything near it: at that height it travels around.',
    `With the tip ${plan.say(plan.amount('depth'))} lower it is beside the wall of the boss, and within ${plan.say(standOff(plan) + plan.tipRadius)} of the wall nothing else stands.`,
  ],
  cautions: [],
  conditions,
  motion: measureBoss,
};

function measureBoss(plan: Plan, motion: Motion): void {
  const centre = measureRound(plan, motion, {
    ball: 'outside',
    touchWall: (axis, side, from, into) => {
      const wall = shifted(from, side, half(plan.input('diameter')));
      motion.guard(axis, shifted(wall, side, length(standOff(plan))));
      motion.down(plan.input('depth'));
      const latched = motion.touch({
        axis,
        sign: side > 0 ? -1 : 1,
        expected: ballAtWall(plan, from, side, 'outside'),
        margin: plan.amount('margin'),
        approach: true,
        into,
      });
      motion.rise();
      return latched;
    },
    goToMiddle: (axis, middle) => motion.across(axis, middle),
  });
  writeCentre(plan, motion, centre);
}

function conditions(plan: Plan): readonly Condition[] {
  return [
    {
      inputs: ['diameter', 'margin'],
      left: half(plan.input('diameter')),
      right: length(plan.amount('margin') - plan.tipRadius),
      message:
        'The search margin must not exceed the radius of the boss and of the tip, else a search runs past the middle.',
      short: 'boss too small',
    },
  ];
}

/** From the wall to the axis of the tip where it goes down beside the boss, mm. */
function standOff(plan: Plan): number {
  return plan.tipRadius + plan.amount('margin') + plan.pace.approach;
}
