import { averagedCentre } from './averagedCentre.ts';
import { half, minus } from './expression.ts';
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

export const reversalCentre: Routine = {
  name: 'reversal-centre',
  title: 'Centre by reversal',
  summary:
    'The centre of a bore or boss, found twice with the spindle turned by 180 degrees in between: tip run-out and odd lobes of the probe cancel in the mean.',
  subroutine: { name: 'probe_reversal_centre', number: 8117 },
  inputs: [
    insideOrOutsideInput('feature', 'bore', 'boss', 'What the centre is wanted of.'),
    roundDiameterInput('By the drawing.'),
    depthInput(wholeWall),
    coordinateInput('becomesX', 'X of the centre'),
    coordinateInput('becomesY', 'Y of the centre'),
    workOffsetInput,
    marginInput,
    agreementInput,
  ],
  results: [
    { name: 'centreX', title: 'the centre in X', kind: 'coordinate' },
    { name: 'centreY', title: 'the centre in Y', kind: 'coordinate' },
    { name: 'turnedX', title: 'run-out and odd lobes in X', kind: 'form' },
    { name: 'turnedY', title: 'run-out and odd lobes in Y', kind: 'form' },
  ],
  start: (plan) => [
    ...startOver(plan, roundOf(plan, 'feature')),
    plan.profile.machine.spindleOrientation
      ? 'M19 turns the spindle to an angle on this machine.'
      : 'The spindle can be turned by hand: the program stops and asks for it, and what turns it must hold it within some degrees.',
  ],
  cautions: [
    'A probe that is turned by hand is touched with care: pushed off its seat it would measure something else.',
  ],
  conditions: (plan) => roomFor(plan, roundOf(plan, 'feature')),
  part: (plan) => ({
    solids: nominalRound(plan, roundOf(plan, 'feature')),
    places: [placeAlong('x', 0, plan.amount('becomesX')), placeAlong('y', 0, plan.amount('becomesY'))],
    results: { turnedX: 0, turnedY: 0 },
  }),
  motion: measureReversed,
};

function measureReversed(plan: Plan, motion: Motion): void {
  const feature = featureOf(plan, motion, roundOf(plan, 'feature'));
  const { mean, centres } = averagedCentre(plan, motion, feature, 2, (index) => {
    motion.note(index === 0 ? 'The spindle as it was calibrated.' : 'The spindle the other way round.');
    motion.orient(180 * index);
  });
  motion.note('The spindle back as it was calibrated.');
  motion.orient(0);
  const [first, second] = centres;
  if (first === undefined || second === undefined) throw new Error('A reversal takes two centres.');
  motion.note('Half of what the two differ by is what one of them is off by.');
  motion.set('turnedX', half(minus(first.x, second.x)), 'result');
  motion.set('turnedY', half(minus(first.y, second.y)), 'result');
  motion.write([
    { axis: 'x', measured: mean.x, becomes: plan.input('becomesX') },
    { axis: 'y', measured: mean.y, becomes: plan.input('becomesY') },
  ]);
}
