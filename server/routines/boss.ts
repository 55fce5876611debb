import type { Motion } from './motion.ts';
import { round } from './nominalPart.ts';
import { measureRound, roundFeatureInputs, roundFeatureResults, roundPlaces } from './roundFeature.ts';
import type { Plan, Routine } from './routine.ts';
import { standOff, touchFromOutside, usualOutside, widthOutside } from './walls.ts';
import { topBeside } from './widthFeature.ts';

export const boss: Routine = {
  name: 'boss',
  title: 'Boss',
  summary:
    'The centre of a round boss becomes a place in X and Y of the work offset; its diameter and roundness are measured.',
  subroutine: { name: 'probe_boss', number: 8103 },
  inputs: roundFeatureInputs({
    usualDiameter: (facts) => usualOutside(facts, 30),
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
  conditions: (plan) => [widthOutside(plan, 'diameter', 'boss')],
  part: (plan) => ({
    solids: [round('add', plan.amount('diameter'), topBeside(plan))],
    ...roundPlaces(plan),
  }),
  motion: measureBoss,
};

function measureBoss(plan: Plan, motion: Motion): void {
  measureRound(plan, motion, {
    ball: 'outside',
    touchWall: (wall) => touchFromOutside(plan, motion, wall),
  });
}
