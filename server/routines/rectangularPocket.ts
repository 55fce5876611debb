import { half, minus, plus } from './expression.ts';
import { type Motion, start } from './motion.ts';
import { plateAround, pocket } from './nominalPart.ts';
import {
  measureRectangle,
  quarter,
  rectangleInputs,
  rectanglePlaces,
  rectangleResults,
} from './rectangle.ts';
import type { Plan, Routine } from './routine.ts';
import { leastWay, leastWidth, roomToWall, touchFromInside, usualInside, type Wall } from './walls.ts';
import { topBeside } from './widthFeature.ts';

export const rectangularPocket: Routine = {
  name: 'rectangular-pocket',
  title: 'Rectangular pocket',
  summary:
    'The centre of a rectangular pocket becomes a place in X and Y of the work offset; its sizes and its angle are measured.',
  subroutine: { name: 'probe_rectangular_pocket', number: 8109 },
  inputs: rectangleInputs({
    x: {
      usual: (facts) => Math.max(60, Math.ceil(6 * leastWay(facts))),
      least: (facts) => 4 * leastWay(facts),
    },
    y: { usual: (facts) => usualInside(facts, 40), least: leastWidth },
    depthHelp: 'How far the tip goes down from where it starts, to a height where the walls are whole.',
  }),
  results: rectangleResults,
  start: (plan) => [
    'The tip stands over the pocket, about over its centre, above the part and everything near it: at that height it travels along X.',
    `With the tip ${plan.say(plan.amount('depth'))} lower its ball is wholly inside the pocket and touches nothing, there and a quarter of the size to either side along X. The rounding of the corners is smaller than a quarter of the size in X.`,
  ],
  cautions: [],
  conditions: (plan) => [
    ...roomToWall(plan, {
      inputs: ['sizeX'],
      way: quarter(plan),
      wayMm: plan.amount('sizeX') / 4,
      what: 'quarter of the size in X',
      short: 'size in X too small',
    }),
    ...roomToWall(plan, {
      inputs: ['sizeY'],
      way: half(plan.input('sizeY')),
      wayMm: plan.amount('sizeY') / 2,
      what: 'half of the size in Y',
      short: 'size in Y too small',
    }),
  ],
  part: (plan) => {
    const [halfX, halfY] = [plan.amount('sizeX') / 2, plan.amount('sizeY') / 2];
    const top = topBeside(plan);
    return { solids: [plateAround(halfX, halfY, top), pocket(halfX, halfY, top)], ...rectanglePlaces(plan) };
  },
  motion: measurePocket,
};

function measurePocket(plan: Plan, motion: Motion): void {
  const touch = (wall: Omit<Wall, 'middle' | 'width'>, size: 'sizeX' | 'sizeY', room: number) =>
    touchFromInside(
      plan,
      motion,
      { ...wall, middle: start[size === 'sizeX' ? 'x' : 'y'], width: plan.input(size) },
      room,
    );
  const acrossX = (side: 1 | -1, into: string) =>
    touch({ along: 'x', side, into }, 'sizeX', plan.amount('sizeX') / 2);
  const acrossY = (side: 1 | -1, into: string) =>
    touch({ along: 'y', side, into }, 'sizeY', plan.amount('sizeY'));
  motion.note(
    'Left of the middle, down into the pocket, ready to stop: the wall at the left and those across Y.',
  );
  motion.guard('x', minus(start.x, quarter(plan)));
  motion.down(plan.input('depth'));
  const frontLeft = acrossY(-1, 'frontLeft');
  const backLeft = acrossY(1, 'backLeft');
  const left = acrossX(-1, 'left');
  motion.rise();
  motion.note('Right of the middle the same.');
  motion.guard('x', plus(start.x, quarter(plan)));
  motion.down(plan.input('depth'));
  const frontRight = acrossY(-1, 'frontRight');
  const backRight = acrossY(1, 'backRight');
  const right = acrossX(1, 'right');
  motion.rise();
  measureRectangle(plan, motion, 'inside', { left, right, frontLeft, frontRight, backLeft, backRight });
}
