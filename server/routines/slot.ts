import { acrossInputs, lineAcross } from './across.ts';
import type { Motion } from './motion.ts';
import { longSide, plateAround, pocket } from './nominalPart.ts';
import type { Plan, Routine } from './routine.ts';
import { agreementInput, coordinateInput, depthInput, marginInput, workOffsetInput } from './sharedInputs.ts';
import { leastWidth, roomInside, touchFromInside, usualInside } from './walls.ts';
import { degreesOf, measureWidth, topBeside, widthInput, widthPlaces, widthResults } from './widthFeature.ts';

export const slot: Routine = {
  name: 'slot',
  title: 'Slot',
  summary:
    'The middle between two walls that face each other becomes a coordinate of the work offset; the width is measured.',
  subroutine: { name: 'probe_slot', number: 8105 },
  inputs: [
    widthInput('From wall to wall, by the drawing.', (facts) => usualInside(facts, 20), leastWidth),
    depthInput('How far the tip goes down from where it starts, to a height where both walls are whole.'),
    ...acrossInputs('slot'),
    coordinateInput('becomes', 'Coordinate of the middle'),
    workOffsetInput,
    marginInput,
    agreementInput,
  ],
  results: widthResults,
  start: (plan) => [
    'The tip stands over the slot, about over its middle, above the part.',
    `With the tip ${plan.say(plan.amount('depth'))} lower its ball is wholly inside the slot and touches nothing.`,
  ],
  cautions: [
    'The slot must lie square to the direction of measurement: one that is turned by 2 degrees seems 0.06 percent wider.',
  ],
  conditions: (plan) => roomInside(plan, 'width', 'slot'),
  part: (plan) => ({
    solids: [
      plateAround(plan.amount('width') / 2, longSide, topBeside(plan), degreesOf(plan)),
      pocket(plan.amount('width') / 2, longSide, topBeside(plan), degreesOf(plan)),
    ],
    ...widthPlaces(plan),
  }),
  motion: measureSlot,
};

function measureSlot(plan: Plan, motion: Motion): void {
  const along = lineAcross(plan);
  motion.note('Down into the slot, ready to stop.');
  motion.down(plan.input('depth'));
  measureWidth(plan, motion, along, 'inside', (wall) =>
    touchFromInside(plan, motion, wall, plan.amount('width')),
  );
}
