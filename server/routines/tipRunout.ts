import { half, minus, plus, shifted, squareRoot, times } from './expression.ts';
import { type Motion, start } from './motion.ts';
import { blockBeyond } from './nominalPart.ts';
import type { Input, Plan, Routine } from './routine.ts';
import {
  agreementInput,
  depthInput,
  distanceBesideInput,
  farEnough,
  marginInput,
  standsBeside,
} from './sharedInputs.ts';
import { topBeside } from './widthFeature.ts';

const directions: Readonly<Record<string, { readonly along: 'x' | 'y'; readonly sign: 1 | -1 }>> = {
  'X+': { along: 'x', sign: 1 },
  'X-': { along: 'x', sign: -1 },
  'Y+': { along: 'y', sign: 1 },
  'Y-': { along: 'y', sign: -1 },
};

const directionInput: Input = {
  name: 'direction',
  title: 'Direction',
  help: 'The way the tip moves to meet the face.',
  type: 'choice',
  default: () => 'X+',
  choices: Object.keys(directions).map((value) => ({ value, title: `moving in ${value}` })),
  required: true,
  argument: false,
};

export const tipRunout: Routine = {
  name: 'tip-runout',
  title: 'Run-out of the tip',
  summary:
    'One face is touched at four angles of the spindle: how far the tip stands off the axis that it turns about. Set the stylus true by it before you calibrate; an indicator shows twice as much.',
  subroutine: { name: 'probe_tip_runout', number: 8116 },
  inputs: [
    directionInput,
    distanceBesideInput,
    depthInput('How far the tip goes down beside the face before it looks for it.'),
    marginInput,
    agreementInput,
  ],
  results: [
    { name: 'runoutX', title: 'off the axis along the touch', kind: 'probe' },
    { name: 'runoutY', title: 'off the axis square to the touch', kind: 'probe' },
    { name: 'runout', title: 'the run-out', kind: 'probe' },
  ],
  start: (plan) => [
    `The tip stands beside the face, about ${plan.say(plan.amount('distance'))} from touching it in ${plan.choice('direction')}.`,
    standsBeside(plan),
    plan.profile.machine.spindleOrientation
      ? 'M19 turns the spindle to an angle on this machine.'
      : 'The spindle can be turned by hand: the program stops and asks for it four times.',
  ],
  cautions: [
    'The three lobes of a probe show in these four touches as if they were run-out: what is left of that size is no fault of the tip.',
    'A probe that is turned by hand is touched with care: pushed off its seat it would measure something else.',
  ],
  conditions: (plan) => [farEnough(plan)],
  part: (plan) => {
    const { along, sign } = directionOf(plan);
    const degrees = (along === 'x' ? 0 : 90) + (sign > 0 ? 0 : 180);
    return {
      solids: [blockBeyond(plan.amount('distance') + plan.tipRadius, degrees, topBeside(plan))],
      places: [],
      results: { runoutX: 0, runoutY: 0, runout: 0 },
    };
  },
  motion: measureRunout,
};

function measureRunout(plan: Plan, motion: Motion): void {
  const { along, sign } = directionOf(plan);
  const [none, quarter, reverse, last] = [0, 90, 180, 270].map((degrees) => {
    motion.note(`The spindle at ${degrees} degrees.`);
    motion.orient(degrees);
    motion.down(plan.input('depth'));
    const latched = motion.touch({
      along,
      sign,
      expected: shifted(start[along], sign, plan.input('distance')),
      margin: plan.amount('margin'),
      approach: true,
      into: `at${degrees}`,
    });
    motion.rise();
    return latched;
  });
  if (!none || !quarter || !reverse || !last) throw new Error('Four angles make four touches.');
  motion.orient(0);
  motion.note('Where the tip is ahead of the axis it touches early: half of what opposite angles differ by.');
  const x = motion.set('runoutX', half(minus(reverse, none)), 'result');
  const y = motion.set('runoutY', half(minus(quarter, last)), 'result');
  const squares = motion.set('squares', plus(times(x, x), times(y, y)));
  motion.set('runout', squareRoot(squares), 'result');
}

function directionOf(plan: Plan) {
  return directions[plan.choice('direction')] ?? { along: 'x', sign: 1 };
}
