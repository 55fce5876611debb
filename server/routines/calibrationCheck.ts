import { effectiveRadius } from '../probe/effectiveRadius.ts';
import { measureByChords } from './chords.ts';
import { absolute, minus } from './expression.ts';
import type { Motion } from './motion.ts';
import { measuringFeedOf } from './pace.ts';
import {
  featureOf,
  insideOrOutsideInput,
  nominalRound,
  type RoundReference,
  roomFor,
  roundDiameterInput,
  startOver,
} from './roundReference.ts';
import type { Facts, Input, Plan, Routine } from './routine.ts';
import { agreementInput, depthInput, marginInput } from './sharedInputs.ts';

const limitInput: Input = {
  name: 'limit',
  title: 'Limit',
  help: 'The program stops with a message where a diameter differs from that of the reference by more than this: calibrate anew then. Usual: what the calibration leaves open, and three standard deviations of two touches.',
  type: 'length',
  default: usualLimit,
  least: () => 0.001,
  greatest: () => 1,
  required: false,
  argument: true,
};

export const calibrationCheck: Routine = {
  name: 'calibration-check',
  title: 'Check of the calibration',
  summary:
    'Opposite touches on a ring or a plug of known diameter, reckoned with the current calibration: a message where they are off by more than a limit.',
  subroutine: { name: 'probe_calibration_check', number: 8114 },
  inputs: [
    insideOrOutsideInput('reference', 'ring', 'plug', 'What is touched.'),
    roundDiameterInput('As its certificate says, at its temperature now.'),
    depthInput('How far the tip goes down from where it starts, to a height where the wall is whole.'),
    limitInput,
    marginInput,
    agreementInput,
  ],
  results: [
    { name: 'diameterX', title: 'the diameter along X', kind: 'size' },
    { name: 'diameterY', title: 'the diameter along Y', kind: 'size' },
    { name: 'offX', title: 'how much the diameter along X is off', kind: 'form' },
    { name: 'offY', title: 'how much the diameter along Y is off', kind: 'form' },
  ],
  start: (plan) => startOver(plan, referenceIn(plan)),
  cautions: [],
  conditions: (plan) => roomFor(plan, referenceIn(plan)),
  part: (plan) => ({
    solids: nominalRound(plan, referenceIn(plan)),
    places: [],
    results: { diameterX: plan.amount('diameter'), diameterY: plan.amount('diameter') },
  }),
  motion: checkCalibration,
};

function checkCalibration(plan: Plan, motion: Motion): void {
  const feature = featureOf(plan, motion, referenceIn(plan));
  if (feature.ball === 'inside') {
    motion.note('Down into the ring, ready to stop.');
    motion.down(plan.input('depth'));
  }
  const { alongX, alongY } = measureByChords(plan, motion, feature, true);
  motion.note('Up, in the middle.');
  motion.rise();
  for (const [axis, along] of [
    ['X', alongX],
    ['Y', alongY],
  ] as const) {
    const off = motion.set(`off${axis}`, minus(along, plan.input('diameter')), 'result');
    motion.judge(absolute(off), plan.input('limit'), {
      long: `the diameter along ${axis} is off by more than the limit`,
      short: `calibration off along ${axis}`,
    });
  }
}

function referenceIn(plan: Plan): RoundReference {
  const what = plan.choice('reference');
  return { what, isInside: what === 'ring' };
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
