import { absolute, angleOf, type Expression, half, length, minus, over, plus } from './expression.ts';
import { type Motion, start } from './motion.ts';
import { block } from './nominalPart.ts';
import type { Input, Plan, Routine } from './routine.ts';
import { agreementInput, marginInput } from './sharedInputs.ts';

const span = (axis: 'X' | 'Y', usual: number): Input => ({
  name: `span${axis}`,
  title: `Span in ${axis}`,
  help: `From the touches at one end to those at the other, along ${axis}. The longer, the better the angle.`,
  type: 'length',
  default: () => usual,
  least: () => 5,
  greatest: () => 1000,
  required: true,
  argument: true,
});

export const planeTilt: Routine = {
  name: 'plane-tilt',
  title: 'Tilt of a plane',
  summary:
    'Three or four places of an upper face are touched: how far it leans about X and Y. It is reported.',
  subroutine: { name: 'probe_plane_tilt', number: 8112 },
  inputs: [
    span('X', 60),
    span('Y', 40),
    {
      name: 'distance',
      title: 'Distance',
      help: 'About how far the tip has to travel down from where it starts until it touches the face.',
      type: 'length',
      default: ({ pace }) => 10 + pace.approach,
      least: ({ pace }) => 1 + pace.approach,
      greatest: () => 500,
      required: true,
      argument: true,
    },
    {
      name: 'touches',
      title: 'Touches',
      help: 'Four, at the corners of the spans, say besides how far the face is from flat. Three are at the front corners and in the middle of the back.',
      type: 'choice',
      default: () => 'four',
      choices: [
        { value: 'four', title: 'four: the tilt, and whether the face is flat' },
        { value: 'three', title: 'three: the tilt' },
      ],
      required: false,
      argument: false,
    },
    marginInput,
    agreementInput,
  ],
  results: [
    { name: 'tiltX', title: 'the tilt about X, above 0 where the face rises towards Y+', kind: 'angle' },
    { name: 'tiltY', title: 'the tilt about Y, above 0 where the face falls towards X+', kind: 'angle' },
    { name: 'flatness', title: 'the flatness over the four places', kind: 'form' },
  ],
  start: (plan) => [
    `The tip stands about ${plan.say(plan.amount('distance'))} above the middle of the face, above the part and everything near it: at that height it travels to the places that it touches, ${plan.say(plan.amount('spanX') / 2)} to either side in X and ${plan.say(plan.amount('spanY') / 2)} in Y.`,
  ],
  cautions: [],
  conditions: (plan) => [
    {
      inputs: ['distance', 'margin'],
      left: plan.input('distance'),
      right: length(plan.amount('margin') + plan.pace.approach),
      message: `The distance must be at least the search margin and ${plan.say(plan.pace.approach)} more.`,
      short: 'distance too short',
    },
  ],
  part: (plan) => ({
    solids: [block(plan.amount('spanX') / 2 + 20, plan.amount('spanY') / 2 + 20, -plan.amount('distance'))],
    places: [],
    results: { tiltX: 0, tiltY: 0 },
  }),
  motion: measureTilt,
};

function measureTilt(plan: Plan, motion: Motion): void {
  const [halfX, halfY] = [half(plan.input('spanX')), half(plan.input('spanY'))];
  const [left, right] = [minus(start.x, halfX), plus(start.x, halfX)];
  const [front, back] = [minus(start.y, halfY), plus(start.y, halfY)];
  const touch = (x: Expression, y: Expression, into: string) => touchAt(plan, motion, x, y, into);
  const frontLeft = touch(left, front, 'frontLeft');
  const frontRight = touch(right, front, 'frontRight');
  if (plan.choice('touches') === 'three') {
    const backMiddle = touch(start.x, back, 'backMiddle');
    motion.note('Back over the middle.');
    motion.goTo(start);
    report(plan, motion, minus(frontLeft, frontRight), minus(backMiddle, half(plus(frontLeft, frontRight))));
    return;
  }
  const backRight = touch(right, back, 'backRight');
  const backLeft = touch(left, back, 'backLeft');
  motion.note('Back over the middle.');
  motion.goTo(start);
  const fall = half(plus(minus(frontLeft, frontRight), minus(backLeft, backRight)));
  const rise = half(plus(minus(backLeft, frontLeft), minus(backRight, frontRight)));
  report(plan, motion, fall, rise);
  const twist = minus(plus(frontLeft, backRight), plus(frontRight, backLeft));
  motion.set('flatness', half(absolute(twist)), 'result');
}

function touchAt(plan: Plan, motion: Motion, x: Expression, y: Expression, into: string): Expression {
  motion.guard('x', x);
  motion.guard('y', y);
  return motion.touch({
    along: 'z',
    sign: -1,
    expected: minus(start.z, plan.input('distance')),
    margin: plan.amount('margin'),
    approach: true,
    into,
  });
}

/** `fall` towards X+ and `rise` towards Y+ over the spans: right-handed tilts about the axes. */
function report(plan: Plan, motion: Motion, fall: Expression, rise: Expression): void {
  motion.note('The tip diameter and the tool length are in all heights, so that in the tilt they cancel.');
  const slopeX = motion.set('fallX', over(fall, plan.input('spanX')), 'fall towards X+');
  const slopeY = motion.set('riseY', over(rise, plan.input('spanY')), 'rise towards Y+');
  motion.set('tiltX', angleOf(slopeY), 'result: degrees about X');
  motion.set('tiltY', angleOf(slopeX), 'result: degrees about Y');
}
