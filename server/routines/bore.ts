import { length } from './expression.ts';
import type { Motion } from './motion.ts';
import {
  ballAtWall,
  measureRound,
  roundFeatureInputs,
  roundFeatureResults,
  writeCentre,
} from './roundFeature.ts';
import type { Condition, Facts, Plan, Routine } from './routine.ts';

export const bore: Routine = {
  name: 'bore',
  title: 'Bore',
  summary:
    'The centre of a bore becomes a place in X and Y of the work offset; its diameter is measured along both.',
  subroutine: { name: 'probe_bore', number: 8102 },
  inputs: roundFeatureInputs({
    usualDiameter: 25,
    leastDiameter,
    depthHelp: 'How far the tip goes down from where it starts, to a height where the wall is whole.',
  }),
  results: roundFeatureResults,
  start: (plan) => [
    'The tip stands over the bore, about over its centre, above the part.',
    `With the tip ${plan.say(plan.amount('depth'))} lower its ball is wholly inside the bore and touches nothing.`,
  ],
  cautions: [],
  conditions,
  motion: measureBore,
};

function measureBore(plan: Plan, motion: Motion): void {
  motion.note('Down into the bore, ready to stop.');
  motion.down(plan.input('depth'));
  const centre = measureRound(plan, motion, {
    ball: 'inside',
    touchWall: (axis, side, from, into) =>
      motion.touch({
        axis,
        sign: side,
        expected: ballAtWall(plan, from, side, 'inside'),
        margin: plan.amount('margin'),
        approach: approaches(plan),
        into,
      }),
    goToMiddle: (axis, middle) => motion.across(axis, middle),
  });
  motion.note('Up, in the middle of the bore.');
  motion.rise();
  writeCentre(plan, motion, centre);
}

function conditions(plan: Plan): readonly Condition[] {
  const least = leastDiameter(plan);
  const diameter = plan.input('diameter');
  const roomForTip: Condition = {
    inputs: ['diameter', 'agreement'],
    left: diameter,
    right: length(least),
    message: `The bore must be at least ${plan.say(least)} wide: the tip and room to back off on both sides.`,
    short: 'bore too small',
  };
  if (!approaches(plan)) return [roomForTip];
  const roomForApproach: Condition = {
    inputs: ['diameter', 'margin'],
    left: diameter,
    right: length(approachedFrom(plan)),
    message: `With this search margin the quick approach needs a bore of ${plan.say(approachedFrom(plan))}.`,
    short: 'bore too small',
  };
  return [roomForTip, roomForApproach];
}

/** Room for the tip to stand in the middle and to back off from either wall, mm. */
function leastDiameter({ probe, pace }: Facts): number {
  return probe.tipDiameter + 2 * (pace.backOff + 0.2);
}

/** In a wide bore the tip travels near the wall before it searches; in a narrow one it searches from the middle. */
function approaches(plan: Plan): boolean {
  return plan.amount('diameter') >= approachedFrom(plan);
}

function approachedFrom(plan: Plan): number {
  return 2 * (plan.tipRadius + plan.amount('margin') + plan.pace.approach);
}
