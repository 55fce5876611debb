import { effectiveRadius } from '../probe/effectiveRadius.ts';
import { chord, measureByChords } from './chords.ts';
import { absolute, type Expression, minus } from './expression.ts';
import { type Motion, start } from './motion.ts';
import { block } from './nominalPart.ts';
import { measuringFeedOf } from './pace.ts';
import { diameterOf } from './roundFeature.ts';
import {
  featureOf,
  insideOrOutsideInput,
  nominalRound,
  roomFor,
  roundDiameterInput,
  roundOf,
  startOver,
} from './roundReference.ts';
import type { Facts, Input, Plan, Routine } from './routine.ts';
import { agreementInput, depthInput, marginInput, wholeWall } from './sharedInputs.ts';
import { topBeside } from './widthFeature.ts';

const limitInput: Input = {
  name: 'limit',
  title: 'Limit',
  help: 'The program stops with a message where a size differs from that of the reference by more than this: calibrate anew then. Usual: what the calibration leaves open, and three standard deviations of two touches.',
  type: 'length',
  default: usualLimit,
  least: () => 0.001,
  greatest: () => 1,
  required: false,
  argument: true,
};

const acrossInput: Input = {
  name: 'across',
  title: 'Gauge block along',
  help: 'The axis that the measuring faces of a gauge block look along. Not used with a ring or a plug: both axes are checked there.',
  type: 'choice',
  default: () => 'X',
  choices: [
    { value: 'X', title: 'along X' },
    { value: 'Y', title: 'along Y' },
  ],
  required: false,
  argument: false,
};

export const calibrationCheck: Routine = {
  name: 'calibration-check',
  title: 'Check of the calibration',
  summary:
    'Opposite touches on a ring, a plug or a gauge block of known size, reckoned with the current calibration: a message where they are off by more than a limit.',
  subroutine: { name: 'probe_calibration_check', number: 8114 },
  inputs: [
    insideOrOutsideInput('reference', 'ring', 'plug', 'What is touched.', [
      { value: 'block', title: 'a gauge block, touched from both sides along one axis' },
    ]),
    roundDiameterInput('As its certificate says, at its temperature now. Of a gauge block its length.'),
    depthInput(wholeWall),
    acrossInput,
    limitInput,
    marginInput,
    agreementInput,
  ],
  results: [
    { name: 'diameterX', title: 'the size along X', kind: 'size' },
    { name: 'diameterY', title: 'the size along Y', kind: 'size' },
    { name: 'offX', title: 'how much the size along X is off', kind: 'form' },
    { name: 'offY', title: 'how much the size along Y is off', kind: 'form' },
  ],
  start: (plan) => [
    ...startOver(plan, roundOf(plan, 'reference')),
    ...(isBlock(plan)
      ? [
          `The measuring faces of the block lie square to ${plan.choice('across')}, and reach ${plan.say(faceReach(plan))} or more to either side of the start: turned by 1 degree it seems 0.02 percent longer.`,
        ]
      : []),
  ],
  cautions: [],
  conditions: (plan) => roomFor(plan, roundOf(plan, 'reference')),
  part: (plan) => {
    const sizes = axesOf(plan).map((axis) => [`diameter${axis}`, plan.amount('diameter')]);
    return { solids: nominalReference(plan), places: [], results: Object.fromEntries(sizes) };
  },
  motion: checkCalibration,
};

function checkCalibration(plan: Plan, motion: Motion): void {
  const measured = isBlock(plan) ? measureBlock(plan, motion) : measureRound(plan, motion);
  for (const [axis, size] of measured) {
    const off = motion.set(`off${axis}`, minus(size, plan.input('diameter')), 'result');
    motion.judge(absolute(off), plan.input('limit'), {
      long: `the size along ${axis} is off by more than the limit`,
      short: `calibration off along ${axis}`,
    });
  }
}

type Sizes = readonly (readonly [axis: 'X' | 'Y', size: Expression])[];

function measureRound(plan: Plan, motion: Motion): Sizes {
  const feature = featureOf(plan, motion, roundOf(plan, 'reference'));
  if (feature.ball === 'inside') {
    motion.note('Down into the ring, ready to stop.');
    motion.down(plan.input('depth'));
  }
  const { alongX, alongY } = measureByChords(plan, motion, feature, true);
  motion.note('Up, in the middle.');
  motion.rise();
  return [
    ['X', alongX],
    ['Y', alongY],
  ];
}

function measureBlock(plan: Plan, motion: Motion): Sizes {
  const feature = featureOf(plan, motion, roundOf(plan, 'reference'));
  return axesOf(plan).map((axis) => {
    const along = axis === 'X' ? 'x' : 'y';
    const { width } = chord(plan, motion, feature, along, start[along], 'middle');
    const size = diameterOf(feature.ball, width, motion.tip());
    return [axis, motion.set(`diameter${axis}`, size, 'result')];
  });
}

function nominalReference(plan: Plan) {
  if (!isBlock(plan)) return nominalRound(plan, roundOf(plan, 'reference'));
  const [half, reach] = [plan.amount('diameter') / 2, faceReach(plan) + plan.tipRadius];
  return plan.choice('across') === 'X'
    ? [block(half, reach, topBeside(plan))]
    : [block(reach, half, topBeside(plan))];
}

function axesOf(plan: Plan): readonly ('X' | 'Y')[] {
  if (!isBlock(plan)) return ['X', 'Y'];
  return [plan.choice('across') === 'X' ? 'X' : 'Y'];
}

function isBlock(plan: Plan): boolean {
  return plan.choice('reference') === 'block';
}

/** From the start along the faces: a block that stands off its place by the search margin is touched all the same, mm. */
function faceReach(plan: Plan): number {
  return plan.amount('margin') + plan.tipRadius;
}

/** What opposite touches of a probe that is still as it was may be off by, mm. */
function usualLimit({ profile, probe }: Facts): number {
  const speed = measuringFeedOf(profile) / 60;
  const used = profile.probe.calibration?.effectiveDiameter ?? profile.probe.tipDiameter;
  const opposite = (degrees: number) =>
    effectiveRadius(probe, degrees, speed, 'towards') +
    effectiveRadius(probe, degrees + 180, speed, 'towards');
  const bias = Math.max(...[0, 90].map((degrees) => Math.abs(used - opposite(degrees))));
  const open = profile.probe.calibration?.expandedUncertainty ?? 0;
  const scatter = 3 * Math.SQRT2 * probe.repeatability.standardDeviation;
  return Math.max(0.005, bias + open + scatter);
}
