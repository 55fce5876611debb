import {
  cornerInput,
  cornerOf,
  cornerPlaces,
  cornerResults,
  mayBeTurned,
  spacingInput,
  touchesInput,
} from './cornerFeature.ts';
import { type Expression, half, length, shifted } from './expression.ts';
import type { Face, Signs } from './meetingFaces.ts';
import { type Motion, start } from './motion.ts';
import { cornerBlock } from './nominalPart.ts';
import type { Plan, Routine } from './routine.ts';
import {
  agreementInput,
  coordinateInput,
  depthInput,
  marginInput,
  usualMargin,
  workOffsetInput,
} from './sharedInputs.ts';
import { standOff } from './walls.ts';
import { topBeside } from './widthFeature.ts';

/** The way the tip moves to meet the two faces of each corner. */
const approaches: Readonly<Record<string, Signs>> = {
  'left-front': [1, 1],
  'right-front': [-1, 1],
  'left-back': [1, -1],
  'right-back': [-1, -1],
};

export const outsideCorner: Routine = {
  name: 'outside-corner',
  title: 'Outside corner',
  summary:
    'The corner of two upright faces becomes a place in X and Y of the work offset; with two touches a face its angle is measured too.',
  subroutine: { name: 'probe_outside_corner', number: 8104 },
  inputs: [
    cornerInput(({ x, y }) => `the part lies in ${opposite(x)} and ${opposite(y)} of it`),
    depthInput(
      'How far the tip goes down beside the faces from where it starts, to a height where both are whole.',
    ),
    touchesInput,
    {
      name: 'inset',
      title: 'Inset',
      help: 'How far from the corner the nearest touch of each face is.',
      type: 'length',
      default: (facts) => Math.max(10, usualMargin(facts) + 2),
      least: () => 3,
      greatest: () => 500,
      required: false,
      argument: false,
    },
    spacingInput,
    coordinateInput('becomesX', 'X of the corner'),
    coordinateInput('becomesY', 'Y of the corner'),
    workOffsetInput,
    marginInput,
    agreementInput,
  ],
  results: cornerResults,
  start: (plan) => [
    'The tip stands over the corner, above the part and everything near it: at that height it travels around the corner.',
    `With the tip ${plan.say(plan.amount('depth'))} lower it is beside whole faces, and ${plan.say(standOff(plan) + plan.tipRadius)} outside them nothing stands.`,
  ],
  cautions: [],
  conditions: (plan) => [
    {
      inputs: ['inset', 'margin'],
      left: length(plan.amount('inset')),
      right: length(plan.amount('margin') + 1),
      message: `The inset must be at least the search margin and ${plan.say(1)}, else a touch may miss the face.`,
      short: 'inset too short',
    },
  ],
  part: (plan) => ({
    solids: [
      cornerBlock(
        approaches[plan.choice('corner')] ?? [1, 1],
        topBeside(plan),
        plan.amount('inset') + plan.amount('spacing'),
      ),
    ],
    reach: plan.amount('inset') + plan.amount('spacing') + 60,
    ...cornerPlaces(plan, 0, 0),
  }),
  motion: measureCorner,
};

function opposite(way: string): string {
  return way.endsWith('-') ? `${way[0]}+` : `${way[0]}-`;
}

function measureCorner(plan: Plan, motion: Motion): void {
  const signs = approaches[plan.choice('corner')] ?? [1, 1];
  motion.note('The face across X, from outside.');
  motion.guard('x', shifted(start.x, signs[0], length(-standOff(plan))));
  const faceX = touchFace(plan, motion, 'x', signs);
  motion.note('Around the corner, outside of both faces, to the face across Y.');
  motion.guard('y', shifted(start.y, signs[1], length(-standOff(plan))));
  const faceY = touchFace(plan, motion, 'y', signs);
  motion.note('Back the way it came, to where it started.');
  motion.across('x', shifted(start.x, signs[0], length(-standOff(plan))));
  motion.across('y', start.y);
  motion.across('x', start.x);
  motion.note('A face is half the effective tip diameter further on than the centre of the tip.');
  const radius = motion.set('radius', half(motion.tip()), 'effective');
  const { x, y } = cornerOf(plan)(motion, faceX, faceY, radius, signs);
  motion.write([
    { axis: 'x', measured: x, becomes: plan.input('becomesX') },
    { axis: 'y', measured: y, becomes: plan.input('becomesY') },
  ]);
}

/** One or two touches of the face across `axis`; the tip stands outside of it at the level, and ends there. */
function touchFace(plan: Plan, motion: Motion, axis: 'x' | 'y', signs: Signs): Face {
  const [across, along] = axis === 'x' ? signs : ([signs[1], signs[0]] as const);
  const other = axis === 'x' ? 'y' : 'x';
  const touchAt = (place: Expression, into: string) => {
    motion.guard(other, place);
    motion.down(plan.input('depth'));
    const latched = motion.touch({
      along: axis,
      sign: across,
      expected: shifted(start[axis], across, length(-plan.tipRadius)),
      margin: plan.amount('margin'),
      approach: true,
      into,
    });
    motion.rise();
    return latched;
  };
  const nearAt = shifted(start[other], along, length(plan.amount('inset')));
  const farAt = shifted(nearAt, along, length(plan.amount('spacing')));
  const near = touchAt(nearAt, `${axis}Near`);
  const far = mayBeTurned(plan) ? touchAt(farAt, `${axis}Far`) : null;
  return { near, far, nearAt, farAt };
}
