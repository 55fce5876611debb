import { angleOf, type Expression, half, minus, number, over, plus, scaled } from './expression.ts';
import { largestOf, smallestOf, summed } from './manyValues.ts';
import { type Motion, start } from './motion.ts';
import { block } from './nominalPart.ts';
import type { Input, Plan, Routine } from './routine.ts';
import { agreementInput, distanceInput, farEnough, leverInput, marginInput } from './sharedInputs.ts';

/** A place on the face: -1, 0 or 1 times half of the span in X and in Y from the start. */
type Place = readonly [x: -1 | 0 | 1, y: -1 | 0 | 1];

const frontLeft: Place = [-1, -1];
const frontRight: Place = [1, -1];
const backRight: Place = [1, 1];
const backLeft: Place = [-1, 1];
const left: Place = [-1, 0];
const right: Place = [1, 0];
const front: Place = [0, -1];
const back: Place = [0, 1];
const middle: Place = [0, 0];

/** Which places are touched, in their order, by how many there are. */
const layouts: Readonly<Record<number, readonly Place[]>> = {
  3: [frontLeft, frontRight, back],
  4: [frontLeft, frontRight, backRight, backLeft],
  5: [frontLeft, frontRight, backRight, backLeft, middle],
  6: [frontLeft, frontRight, right, backRight, backLeft, left],
  7: [frontLeft, frontRight, right, backRight, backLeft, left, middle],
  8: [frontLeft, front, frontRight, right, backRight, back, backLeft, left],
  9: [frontLeft, front, frontRight, right, backRight, back, backLeft, left, middle],
};

const span = (axis: 'X' | 'Y', usual: number): Input => {
  const help = `From the touches at one end to those at the other, along ${axis}. The longer, the better the angle.`;
  return leverInput({ name: `span${axis}`, title: `Span in ${axis}`, help }, usual);
};

const touchesInput: Input = {
  name: 'touches',
  title: 'Touches',
  help: 'Four are at the corners of the spans, three at the front corners and in the middle of the back; more are spread over sides and middle, and the tilt is that of the plane nearest to all (least squares). Four or more say besides how far the face is from flat.',
  type: 'count',
  default: () => 4,
  least: () => 3,
  greatest: () => 9,
  isEffort: true,
  required: false,
  argument: false,
};

export const planeTilt: Routine = {
  name: 'plane-tilt',
  title: 'Tilt of a plane',
  summary:
    'Three or more places of an upper face are touched: how far it leans about X and Y. It is reported.',
  subroutine: { name: 'probe_plane_tilt', number: 8112 },
  inputs: [
    span('X', 60),
    span('Y', 40),
    distanceInput('About how far the tip has to travel down from where it starts until it touches the face.'),
    touchesInput,
    marginInput,
    agreementInput,
  ],
  results: [
    { name: 'tiltX', title: 'the tilt about X, above 0 where the face rises towards Y+', kind: 'angle' },
    { name: 'tiltY', title: 'the tilt about Y, above 0 where the face falls towards X+', kind: 'angle' },
    { name: 'flatness', title: 'the flatness over the places touched', kind: 'form' },
  ],
  start: (plan) => [
    `The tip stands about ${plan.say(plan.amount('distance'))} above the middle of the face, above the part and everything near it: at that height it travels to the places that it touches, ${plan.say(plan.amount('spanX') / 2)} to either side in X and ${plan.say(plan.amount('spanY') / 2)} in Y.`,
  ],
  cautions: [],
  conditions: (plan) => [farEnough(plan)],
  part: (plan) => ({
    solids: [block(plan.amount('spanX') / 2 + 20, plan.amount('spanY') / 2 + 20, -plan.amount('distance'))],
    places: [],
    results: { tiltX: 0, tiltY: 0 },
  }),
  motion: measureTilt,
};

interface Touched {
  readonly place: Place;
  readonly height: Expression;
}

function measureTilt(plan: Plan, motion: Motion): void {
  const touches = (layouts[plan.amount('touches')] ?? []).map(
    (place): Touched => ({ place, height: touchAt(plan, motion, place) }),
  );
  motion.note('Back over the middle.');
  motion.goTo(start);
  motion.note('The plane nearest to all heights; the tip diameter and the tool length cancel in its tilt.');
  const fall = motion.set('fall', overSpan(motion, touches, 0, -1), 'from end to end towards X+');
  const rise = motion.set('rise', overSpan(motion, touches, 1, 1), 'from end to end towards Y+');
  motion.set('tiltX', angleOf(over(rise, plan.input('spanY'))), 'result: degrees about X');
  motion.set('tiltY', angleOf(over(fall, plan.input('spanX'))), 'result: degrees about Y');
  if (touches.length > 3) setFlatness(motion, touches, fall, rise);
}

function touchAt(plan: Plan, motion: Motion, [x, y]: Place): Expression {
  motion.guard('x', plus(start.x, scaled(half(plan.input('spanX')), x)));
  motion.guard('y', plus(start.y, scaled(half(plan.input('spanY')), y)));
  const row = { [-1]: 'front', 0: '', 1: 'back' }[y];
  const column = { [-1]: 'Left', 0: 'Middle', 1: 'Right' }[x];
  const name = `${row}${column}`;
  return motion.touch({
    along: 'z',
    sign: -1,
    expected: minus(start.z, plan.input('distance')),
    margin: plan.amount('margin'),
    approach: true,
    into: name.charAt(0).toLowerCase() + name.slice(1),
  });
}

/**
 * How much the least-squares plane rises (sign 1) or falls (-1) from end to end of a span. With u the places less their
 * mean along it, and no layout leaning (Σ u·v = 0), its slope is Σ z·u / Σ u², and the span is 2 in these.
 */
function overSpan(motion: Motion, touches: readonly Touched[], axis: 0 | 1, sign: 1 | -1): Expression {
  const mean = touches.reduce((sum, { place }) => sum + place[axis], 0) / touches.length;
  const ways = touches.map(({ place }) => place[axis] - mean);
  const largest = Math.max(...ways.map(Math.abs));
  const weighed = touches
    .map(({ height }, i) => ({ height, weight: (sign * (ways[i] ?? 0)) / largest }))
    .filter(({ weight }) => weight !== 0)
    .sort((a, b) => b.weight - a.weight);
  const terms = weighed.map(({ height, weight }) => scaled(height, weight));
  const squares = weighed.reduce((sum, { weight }) => sum + weight * weight, 0);
  const share = Number(((largest * squares) / 2).toFixed(7));
  const sum = summed(motion, 'sum', terms);
  return share === 1 ? sum : over(sum, number(share));
}

/** The highest less the lowest of what the plane leaves of the heights. */
function setFlatness(motion: Motion, touches: readonly Touched[], fall: Expression, rise: Expression): void {
  motion.note('What the plane leaves of each height: the largest less the smallest.');
  const halfFall = motion.set('halfFall', half(fall));
  const halfRise = motion.set('halfRise', half(rise));
  const rests = touches.map(({ place: [x, y], height }, i) =>
    motion.set(`rest${i + 1}`, minus(plus(height, scaled(halfFall, x)), scaled(halfRise, y))),
  );
  motion.set('flatness', minus(largestOf(motion, rests), smallestOf(motion, rests)), 'result');
}
