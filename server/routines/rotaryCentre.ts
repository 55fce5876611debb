import { averagedCentre } from './averagedCentre.ts';
import type { Motion } from './motion.ts';
import { placeAlong } from './nominalPart.ts';
import {
  featureOf,
  insideOrOutsideInput,
  nominalRound,
  roomFor,
  roundDiameterInput,
  roundOf,
  startOver,
} from './roundReference.ts';
import type { Plan, Routine } from './routine.ts';
import {
  agreementInput,
  coordinateInput,
  depthInput,
  marginInput,
  wholeWall,
  workOffsetInput,
} from './sharedInputs.ts';

export const rotaryCentre: Routine = {
  name: 'rotary-centre',
  title: 'Centre of a rotary table',
  summary:
    'The centre of rotation of a table that turns about Z: a bore or boss near its middle is found at two or more even angles of the table, and the mean of its places is where the table turns about.',
  subroutine: { name: 'probe_rotary_centre', number: 8118 },
  inputs: [
    insideOrOutsideInput(
      'feature',
      'bore',
      'boss',
      'A bore or boss near the middle of the table; it need not be in it.',
    ),
    roundDiameterInput('By the drawing, or measured.'),
    depthInput(wholeWall),
    {
      name: 'positions',
      title: 'Positions',
      help: 'At how many angles of the table, evenly over a turn from 0 on. Two are enough; more even out what the table and the feature are off.',
      type: 'count',
      default: () => 2,
      least: () => 2,
      greatest: () => 4,
      required: false,
      argument: false,
    },
    coordinateInput('becomesX', 'X of the centre'),
    coordinateInput('becomesY', 'Y of the centre'),
    workOffsetInput,
    marginInput,
    agreementInput,
  ],
  results: [
    { name: 'centreX', title: 'the centre of rotation in X', kind: 'coordinate' },
    { name: 'centreY', title: 'the centre of rotation in Y', kind: 'coordinate' },
  ],
  start: (plan) => [
    ...startOver(plan, roundOf(plan, 'feature')),
    'The table may turn a whole turn: nothing on it meets the probe, the head or a cable.',
    'C is the axis of the table, and the feature stays within the search margin of its place at every angle.',
  ],
  cautions: ['The table turns while the program runs, from where it stands to 0 degrees first.'],
  conditions: (plan) => roomFor(plan, roundOf(plan, 'feature')),
  part: (plan) => ({
    solids: nominalRound(plan, roundOf(plan, 'feature')),
    places: [placeAlong('x', 0, plan.amount('becomesX')), placeAlong('y', 0, plan.amount('becomesY'))],
    results: {},
  }),
  motion: measureRotary,
};

function measureRotary(plan: Plan, motion: Motion): void {
  const count = plan.amount('positions');
  const feature = featureOf(plan, motion, roundOf(plan, 'feature'));
  const { mean } = averagedCentre(plan, motion, feature, count, (index) =>
    motion.index('c', (360 / count) * index),
  );
  motion.index('c', 0);
  motion.write([
    { axis: 'x', measured: mean.x, becomes: plan.input('becomesX') },
    { axis: 'y', measured: mean.y, becomes: plan.input('becomesY') },
  ]);
}
