import { acrossInputs, lineAcross } from './across.ts';
import type { Motion } from './motion.ts';
import { block, longSide } from './nominalPart.ts';
import type { Plan, Routine } from './routine.ts';
import { agreementInput, coordinateInput, depthInput, marginInput, workOffsetInput } from './sharedInputs.ts';
import { standOff, touchFromOutside, usualOutside, widthOutside } from './walls.ts';
import { degreesOf, measureWidth, topBeside, widthInput, widthPlaces, widthResults } from './widthFeature.ts';

export const web: Routine = {
  name: 'web',
  title: 'Web',
  summary:
    'The middle of a web, a wall with two sides, becomes a coordinate of the work offset; the width is measured.',
  subroutine: { name: 'probe_web', number: 8106 },
  inputs: [
    widthInput(
      'From side to side, by the drawing.',
      (facts) => usualOutside(facts, 20),
      () => 2,
    ),
    depthInput(
      'How far the tip goes down beside the web from where it starts, to a height where both sides are whole.',
    ),
    ...acrossInputs('web'),
    coordinateInput('becomes', 'Coordinate of the middle'),
    workOffsetInput,
    marginInput,
    agreementInput,
  ],
  results: widthResults,
  start: (plan) => [
    'The tip stands over the web, about over its middle, above the part and everything near it: at that height it travels across.',
    `With the tip ${plan.say(plan.amount('depth'))} lower it is beside the web, and within ${plan.say(standOff(plan) + plan.tipRadius)} of its sides nothing else stands.`,
  ],
  cautions: [
    'The web must lie square to the direction of measurement: one that is turned by 2 degrees seems 0.06 percent wider.',
  ],
  conditions: (plan) => [widthOutside(plan, 'width', 'web')],
  part: (plan) => ({
    solids: [block(plan.amount('width') / 2, longSide, topBeside(plan), degreesOf(plan))],
    ...widthPlaces(plan),
  }),
  motion: measureWeb,
};

function measureWeb(plan: Plan, motion: Motion): void {
  measureWidth(plan, motion, lineAcross(plan), 'outside', (wall) => touchFromOutside(plan, motion, wall));
}
