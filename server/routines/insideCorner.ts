import {
  cornerInput,
  cornerOf,
  cornerPlaces,
  cornerResults,
  mayBeTurned,
  spacingInput,
  touchesInput,
} from './cornerFeature.ts';
import { half, length, shifted } from './expression.ts';
import type { Face, Signs } from './meetingFaces.ts';
import { type Motion, start } from './motion.ts';
import { insideCornerSolids } from './nominalPart.ts';
import type { Plan, Routine } from './routine.ts';
import { agreementInput, coordinateInput, depthInput, marginInput, workOffsetInput } from './sharedInputs.ts';
import { approachesOver, leastWay, roomToWall } from './walls.ts';
import { topBeside } from './widthFeature.ts';

/** The way the tip moves to meet the two walls of each corner. */
const approaches: Readonly<Record<string, Signs>> = {
  'left-front': [-1, -1],
  'right-front': [1, -1],
  'left-back': [-1, 1],
  'right-back': [1, 1],
};

export const insideCorner: Routine = {
  name: 'inside-corner',
  title: 'Inside corner',
  summary:
    'The corner in which two upright walls meet becomes a place in X and Y of the work offset; with two touches a wall its angle is measured too.',
  subroutine: { name: 'probe_inside_corner', number: 8107 },
  inputs: [
    cornerInput(({ x, y }) => `the walls stand towards ${x} and ${y}`),
    {
      name: 'inset',
      title: 'Inset',
      help: 'About how far from each of the two walls the axis of the tip starts. Stay out of the rounding of the corner.',
      type: 'length',
      default: (facts) => Math.max(15, Math.ceil(1.5 * leastWay(facts))),
      least: leastWay,
      greatest: () => 500,
      required: true,
      argument: true,
    },
    depthInput('How far the tip goes down from where it starts, to a height where both walls are whole.'),
    touchesInput,
    spacingInput,
    coordinateInput('becomesX', 'X of the corner'),
    coordinateInput('becomesY', 'Y of the corner'),
    workOffsetInput,
    marginInput,
    agreementInput,
  ],
  results: cornerResults,
  start: (plan) => [
    `The tip stands about ${plan.say(plan.amount('inset'))} from each of the two walls, on the open side of them and above everything near it: at that height it travels sideways.`,
    mayBeTurned(plan)
      ? `With the tip ${plan.say(plan.amount('depth'))} lower its ball is beside whole walls and touches nothing, there and ${plan.say(plan.amount('spacing'))} further away from either wall.`
      : `With the tip ${plan.say(plan.amount('depth'))} lower its ball is beside whole walls and touches nothing.`,
  ],
  cautions: [],
  conditions: (plan) =>
    roomToWall(plan, {
      inputs: ['inset'],
      way: plan.input('inset'),
      wayMm: plan.amount('inset'),
      what: 'inset',
      short: 'inset too short',
    }),
  part: (plan) => {
    const [x, y] = approaches[plan.choice('corner')] ?? [1, 1];
    const inset = plan.amount('inset');
    const reach = inset + plan.amount('spacing');
    return {
      solids: insideCornerSolids([x, y], inset, reach, topBeside(plan)),
      reach: reach + 60,
      ...cornerPlaces(plan, x * inset, y * inset),
    };
  },
  motion: measureCorner,
};

function measureCorner(plan: Plan, motion: Motion): void {
  const signs = approaches[plan.choice('corner')] ?? [1, 1];
  motion.note('Down beside both walls, ready to stop.');
  motion.down(plan.input('depth'));
  const nearX = touchWall(plan, motion, 'x', signs[0], 'xNear');
  const nearY = touchWall(plan, motion, 'y', signs[1], 'yNear');
  motion.rise();
  const faceX = withSecondTouch(plan, motion, 'x', signs, nearX);
  const faceY = withSecondTouch(plan, motion, 'y', signs, nearY);
  motion.note('A wall is half the effective tip diameter further on than the centre of the tip.');
  const radius = motion.set('radius', half(motion.tip()), 'effective');
  const { x, y } = cornerOf(plan)(motion, faceX, faceY, radius, signs);
  motion.write([
    { axis: 'x', measured: x, becomes: plan.input('becomesX') },
    { axis: 'y', measured: y, becomes: plan.input('becomesY') },
  ]);
}

/** Touches the wall further away from the corner too, where two touches are wanted, and comes back over the start. */
function withSecondTouch(
  plan: Plan,
  motion: Motion,
  axis: 'x' | 'y',
  signs: Signs,
  near: Face['near'],
): Face {
  const other = axis === 'x' ? 'y' : 'x';
  const [sign, otherSign] = axis === 'x' ? signs : ([signs[1], signs[0]] as const);
  const farAt = shifted(start[other], otherSign, length(-plan.amount('spacing')));
  if (!mayBeTurned(plan)) return { near, far: null, nearAt: start[other], farAt };
  motion.note(`Along the wall across ${axis.toUpperCase()}, away from the corner.`);
  motion.guard(other, farAt);
  motion.down(plan.input('depth'));
  const far = touchWall(plan, motion, axis, sign, `${axis}Far`);
  motion.rise();
  motion.across(other, start[other]);
  return { near, far, nearAt: start[other], farAt };
}

function touchWall(plan: Plan, motion: Motion, axis: 'x' | 'y', sign: 1 | -1, into: string): Face['near'] {
  const wall = shifted(start[axis], sign, plan.input('inset'));
  return motion.touch({
    along: axis,
    sign,
    expected: shifted(wall, sign, length(-plan.tipRadius)),
    margin: plan.amount('margin'),
    approach: approachesOver(plan, plan.amount('inset')),
    into,
  });
}
