import type { Motion } from './motion.ts';
import { plateAround, round } from './nominalPart.ts';
import { measureRound, roundFeatureInputs, roundFeatureResults, roundPlaces } from './roundFeature.ts';
import type { Plan, Routine } from './routine.ts';
import { wholeWall } from './sharedInputs.ts';
import { leastWidth, roomInside, touchFromInside, usualInside } from './walls.ts';
import { topBeside } from './widthFeature.ts';

export const bore: Routine = {
  name: 'bore',
  title: 'Bore',
  summary:
    'The centre of a bore becomes a place in X and Y of the work offset; its diameter and roundness are measured.',
  subroutine: { name: 'probe_bore', number: 8102 },
  inputs: roundFeatureInputs({
    usualDiameter: (facts) => usualInside(facts, 25),
    leastDiameter: leastWidth,
    depthHelp: wholeWall,
  }),
  results: roundFeatureResults,
  start: (plan) => [
    'The tip stands over the bore, about over its centre, above the part.',
    `With the tip ${plan.say(plan.amount('depth'))} lower its ball is wholly inside the bore and touches nothing.`,
  ],
  cautions: [],
  conditions: (plan) => roomInside(plan, 'diameter', 'bore'),
  part: (plan) => ({
    solids: [
      plateAround(plan.amount('diameter') / 2, plan.amount('diameter') / 2, topBeside(plan)),
      round('cut', plan.amount('diameter'), topBeside(plan)),
    ],
    ...roundPlaces(plan),
  }),
  motion: measureBore,
};

function measureBore(plan: Plan, motion: Motion): void {
  motion.note('Down into the bore, ready to stop.');
  motion.down(plan.input('depth'));
  measureRound(plan, motion, {
    ball: 'inside',
    touchWall: (wall) => touchFromInside(plan, motion, wall, plan.amount('diameter')),
  });
}
