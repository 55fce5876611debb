import { chord, type Middle } from './chords.ts';
import { type Reach, shareOf, touchAround } from './evenTouches.ts';
import { type Expression, length, minus, number, over, plus, scaled } from './expression.ts';
import { summed } from './manyValues.ts';
import { type Motion, start } from './motion.ts';
import {
  featureOf,
  insideOrOutsideInput,
  nominalRound,
  type RoundReference,
  roomFor,
  roundDiameterInput,
  roundOf,
  startOver,
} from './roundReference.ts';
import type { Input, Plan, Routine } from './routine.ts';
import { agreementInput, depthInput, firstAngleInput, marginInput, wholeWall } from './sharedInputs.ts';

const touchesInput: Input = {
  name: 'touches',
  title: 'Touches around',
  help: 'In even directions. Fewer than seven do not see the three lobes of the usual probe: they go into the centre and the residuals.',
  type: 'count',
  default: () => 9,
  least: () => 5,
  greatest: () => 12,
  required: false,
  argument: false,
};

const spindleInput: Input = {
  name: 'spindle',
  title: 'Spindle',
  help: 'Touched again with the spindle turned by 180 degrees, run-out of the tip shows apart from the place of the reference.',
  type: 'choice',
  default: () => 'one',
  choices: [
    { value: 'one', title: 'as it hangs' },
    { value: 'both', title: 'as it hangs, and turned by 180 degrees' },
  ],
  required: false,
  argument: false,
};

export const ringCalibration: Routine = {
  name: 'ring-calibration',
  title: 'Calibration on a ring or plug',
  summary:
    'The effective tip diameter and its three lobes from touches around a ring or a plug gauge of known diameter; the touches are written down as `probewright calibrate` reads them.',
  subroutine: { name: 'probe_ring_calibration', number: 8113 },
  inputs: [
    insideOrOutsideInput('reference', 'ring', 'plug', 'What is touched.'),
    roundDiameterInput('As its certificate says, at its temperature now.'),
    depthInput(wholeWall),
    touchesInput,
    firstAngleInput('Of the first touch, counter-clockwise from X+.'),
    spindleInput,
    marginInput,
    agreementInput,
  ],
  results: [
    { name: 'effectiveDiameter', title: 'the effective tip diameter', kind: 'probe' },
    { name: 'lobeCosine', title: 'the cosine part of three lobes', kind: 'probe' },
    { name: 'lobeSine', title: 'the sine part of three lobes', kind: 'probe' },
  ],
  start: (plan) => startOver(plan, roundOf(plan, 'reference')),
  cautions: [
    'The reference is clean, held without strain and as warm as the machine. The touches go to touches.csv, or through the port: probewright calibrate reads them with the diameter of the reference and says how uncertain the result is.',
  ],
  conditions: (plan) => roomFor(plan, roundOf(plan, 'reference')),
  part: (plan) => ({ solids: nominalRound(plan, roundOf(plan, 'reference')), places: [], results: {} }),
  motion: calibrateOnRing,
};

interface Series {
  readonly spindle: number;
  readonly base: Middle;
  readonly reaches: readonly Reach[];
}

function calibrateOnRing(plan: Plan, motion: Motion): void {
  const reference = roundOf(plan, 'reference');
  const turns = plan.choice('spindle') === 'both' ? [0, 180] : [0];
  const series = turns.map((spindle): Series => {
    if (turns.length > 1) motion.orient(spindle);
    const name = spindle === 0 ? 'way' : 'turn';
    return { spindle, ...touchSeries(plan, motion, reference, name) };
  });
  if (turns.length > 1) motion.orient(0);
  setResults(plan, motion, series.flatMap(asItHangs), reference);
  motion.note('Every touch succeeded: direction, centre of the stylus, feed and spindle angle of each.');
  motion.log(series.flatMap((each) => rowsOf(plan, each)));
}

/** The centre by two chords, then all touches from there; up and over the start at the end. */
function touchSeries(
  plan: Plan,
  motion: Motion,
  reference: RoundReference,
  name: string,
): { readonly base: Middle; readonly reaches: readonly Reach[] } {
  const feature = featureOf(plan, motion, reference);
  if (reference.isInside) {
    motion.note('Down into the ring, ready to stop.');
    motion.down(plan.input('depth'));
  }
  const x = chord(plan, motion, feature, 'x', start.x, `${name}X`).middle;
  const y = chord(plan, motion, feature, 'y', start.y, `${name}Y`).middle;
  const reaches = touchAround(plan, motion, feature, { x, y }, name);
  motion.rise();
  motion.goTo(start);
  return { base: { x, y }, reaches };
}

/** r_i = D/2 less the way in a ring, the way less D/2 on a plug; twice their mean, and their parts of order 3. */
function setResults(
  plan: Plan,
  motion: Motion,
  reaches: readonly Reach[],
  { isInside }: RoundReference,
): void {
  const count = reaches.length;
  const twice = over(
    summed(
      motion,
      'sum',
      reaches.map(({ way }) => way),
    ),
    number(count / 2),
  );
  const diameter = plan.input('diameter');
  const from = (whole: Expression, part: Expression) => (isInside ? minus(whole, part) : minus(part, whole));
  motion.set('effectiveDiameter', from(diameter, twice), 'result');
  if (plan.amount('touches') < 7) return;
  for (const [name, shift] of [
    ['lobeCosine', 0],
    ['lobeSine', 90],
  ] as const) {
    const parts = reaches.map(({ ray, way }) =>
      scaled(way, shareOf({ ...ray, degrees: orderOf(ray.degrees, isInside) - shift }, 'x')),
    );
    motion.set(name, from(length(0), over(summed(motion, 'sum', parts), number(count / 2))), 'result');
  }
}

/** The touches with their directions as the probe hangs: less the spindle's turn. */
function asItHangs({ spindle, reaches }: Series): readonly Reach[] {
  return reaches.map(({ ray, way }) => ({ ray: { ...ray, degrees: ray.degrees - spindle }, way }));
}

/** Three times the direction of approach: outwards in a ring, inwards on a plug. */
function orderOf(degrees: number, isInside: boolean): number {
  return 3 * (isInside ? degrees : degrees + 180);
}

function rowsOf(plan: Plan, { spindle, base, reaches }: Series) {
  const { isInside } = roundOf(plan, 'reference');
  const calibrated = plan.profile.probe.calibration?.spindle ?? 0;
  return reaches.map(({ ray, way }) => ({
    direction: number(turnOf(isInside ? ray.degrees : ray.degrees + 180)),
    x: plus(base.x, scaled(way, shareOf(ray, 'x'))),
    y: plus(base.y, scaled(way, shareOf(ray, 'y'))),
    feed: length(plan.pace.measuring),
    spindle: number(turnOf(calibrated + spindle)),
  }));
}

/** 0 to 360, to a thousandth. */
function turnOf(degrees: number): number {
  return Number((((degrees % 360) + 360) % 360).toFixed(3));
}
