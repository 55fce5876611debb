import { angleInput, placeAcross, writeAcross } from './across.ts';
import { type Along, alongFromOrigin, type Level } from './along.ts';
import { type Expression, half, length, shifted } from './expression.ts';
import { type Motion, start } from './motion.ts';
import { block, blockBeyond, longSide, type NominalPart, placeAlong } from './nominalPart.ts';
import type { Plan, Routine } from './routine.ts';
import {
  agreementInput,
  coordinateInput,
  deepEnough,
  depthBesideInput,
  distanceBesideInput,
  farEnough,
  marginInput,
  standsBeside,
  workOffsetInput,
} from './sharedInputs.ts';
import { topBeside } from './widthFeature.ts';

interface Direction {
  readonly along: Along;
  readonly sign: 1 | -1;
}

const directions: Readonly<Record<string, Direction>> = {
  'X+': { along: 'x', sign: 1 },
  'X-': { along: 'x', sign: -1 },
  'Y+': { along: 'y', sign: 1 },
  'Y-': { along: 'y', sign: -1 },
  'Z-': { along: 'z', sign: -1 },
};

export const surface: Routine = {
  name: 'surface',
  title: 'Surface',
  summary:
    'One face, met along X, Y, an angle in the plane or down Z, becomes a coordinate of the work offset.',
  subroutine: { name: 'probe_surface', number: 8101 },
  inputs: [
    {
      name: 'direction',
      title: 'Direction',
      help: 'The way the tip moves to meet the face. Z+ is not offered: a straight stylus has its stem there.',
      type: 'choice',
      default: () => 'X+',
      choices: [
        { value: 'X+', title: 'moving in X+' },
        { value: 'X-', title: 'moving in X-' },
        { value: 'Y+', title: 'moving in Y+' },
        { value: 'Y-', title: 'moving in Y-' },
        { value: 'Z-', title: 'moving down in Z-' },
        { value: 'angle', title: 'moving at an angle in the plane' },
      ],
      required: true,
      argument: false,
    },
    angleInput(
      'The way the tip moves, counter-clockwise from X+: square to the face. Used at an angle alone; then the coordinate of the face is its distance from the origin that way.',
      30,
    ),
    distanceBesideInput,
    depthBesideInput(' Not used in Z-.'),
    coordinateInput('becomes', 'Coordinate of the face'),
    workOffsetInput,
    marginInput,
    agreementInput,
  ],
  results: [{ name: 'surface', title: 'the face', kind: 'coordinate' }],
  start: (plan) =>
    plan.choice('direction') === 'Z-'
      ? [`The tip stands about ${plan.say(plan.amount('distance'))} above the face.`]
      : [
          `The tip stands beside the face, about ${plan.say(plan.amount('distance'))} from touching it ${wayInWords(plan)}.`,
          standsBeside(plan),
        ],
  cautions: [],
  conditions: (plan) => (goesDown(plan) ? [deepEnough(plan), farEnough(plan)] : [farEnough(plan)]),
  part: nominalSurface,
  motion: measureSurface,
};

function measureSurface(plan: Plan, motion: Motion): void {
  const { along, sign } = directionOf(plan);
  if (goesDown(plan)) {
    motion.note('Down beside the face, ready to stop.');
    motion.down(plan.input('depth'));
  }
  const latched = motion.touch({
    along,
    sign,
    expected: shifted(typeof along === 'string' ? start[along] : length(0), sign, plan.input('distance')),
    margin: plan.amount('margin'),
    approach: true,
    into: 'touched',
  });
  if (along === 'z') {
    motion.note('The tool length reaches to the lowest point of the tip, so nothing is added in Z.');
    const face = motion.set('surface', latched, 'result');
    motion.write([{ axis: 'z', measured: face, becomes: plan.input('becomes') }]);
  } else writeUpright(plan, motion, along, shifted(latched, sign, half(tipOf(motion))));
}

function tipOf(motion: Motion): Expression {
  motion.note('The face is half the effective tip diameter further on than the centre of the tip.');
  return motion.tip();
}

function writeUpright(plan: Plan, motion: Motion, along: Level, face: Expression): void {
  const measured = motion.set('surface', alongFromOrigin(along, face), 'result');
  if (goesDown(plan)) motion.rise();
  writeAcross(motion, along, measured, plan.input('becomes'));
}

function nominalSurface(plan: Plan): NominalPart {
  const { along, sign } = directionOf(plan);
  const becomes = plan.amount('becomes');
  const distance = plan.amount('distance');
  if (along === 'z')
    return {
      solids: [block(longSide, longSide, -distance)],
      places: [placeAlong('z', -distance, becomes)],
      results: {},
    };
  const at = distance + plan.tipRadius;
  const degrees = typeof along === 'string' ? (along === 'x' ? 0 : 90) : along.degrees;
  const top = goesDown(plan) ? topBeside(plan) : 20;
  return {
    solids: [blockBeyond(at, sign > 0 ? degrees : degrees + 180, top)],
    places: [placeAcross(along, sign * at, becomes)],
    results: {},
  };
}

function directionOf(plan: Plan): Direction {
  const ray = { base: start, degrees: plan.amount('angle') };
  return directions[plan.choice('direction')] ?? { along: ray, sign: 1 };
}

function wayInWords(plan: Plan): string {
  const direction = plan.choice('direction');
  return direction === 'angle' ? `at ${plan.amount('angle')} degrees` : `in ${direction}`;
}

/** Beside an upright face, where the start is above it. */
function goesDown(plan: Plan): boolean {
  return plan.choice('direction') !== 'Z-' && plan.amount('depth') > 0;
}
