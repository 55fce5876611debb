import { angleInput } from './across.ts';
import { directionOf, type Level } from './along.ts';
import { type Expression, length, minus, plus, shifted } from './expression.ts';
import { type Motion, start } from './motion.ts';
import { blockBeyond } from './nominalPart.ts';
import type { Condition, Plan, Routine } from './routine.ts';
import { agreementInput, distanceInput, farEnough, marginInput, usualMargin } from './sharedInputs.ts';

interface Way {
  readonly along: Level;
  readonly sign: 1 | -1;
}

const ways: Readonly<Record<string, Way>> = {
  'X+': { along: 'x', sign: 1 },
  'X-': { along: 'x', sign: -1 },
  'Y+': { along: 'y', sign: 1 },
  'Y-': { along: 'y', sign: -1 },
};

export const steppedHeight: Routine = {
  name: 'stepped-height',
  title: 'Stepped height',
  summary:
    'Two faces are touched from above: how much higher the second lies than the first. It is reported.',
  subroutine: { name: 'probe_stepped_height', number: 8108 },
  inputs: [
    {
      name: 'step',
      title: 'Step',
      help: 'How much higher the second face lies than the first, by the drawing; below 0 where it lies lower.',
      type: 'length',
      default: () => -10,
      least: () => -300,
      greatest: () => 300,
      required: true,
      argument: true,
    },
    {
      name: 'direction',
      title: 'Direction',
      help: 'The way from the first face to the second.',
      type: 'choice',
      default: () => 'X+',
      choices: [
        { value: 'X+', title: 'the second lies towards X+' },
        { value: 'X-', title: 'the second lies towards X-' },
        { value: 'Y+', title: 'the second lies towards Y+' },
        { value: 'Y-', title: 'the second lies towards Y-' },
        { value: 'angle', title: 'the second lies at an angle in the plane' },
      ],
      required: true,
      argument: false,
    },
    angleInput('The way to the second face, counter-clockwise from X+. Used at an angle alone.', 30),
    {
      name: 'apart',
      title: 'Apart',
      help: 'From the place of the first touch to that of the second.',
      type: 'length',
      default: (facts) => Math.max(30, Math.ceil(2 * usualMargin(facts) + facts.probe.tipDiameter + 1)),
      least: ({ probe }) => probe.tipDiameter + 2.5,
      greatest: () => 1000,
      required: true,
      argument: true,
    },
    distanceInput(
      'About how far the tip has to travel down from where it starts until it touches the first face.',
    ),
    marginInput,
    agreementInput,
  ],
  results: [{ name: 'measuredStep', title: 'the step, second less first', kind: 'size' }],
  start: (plan) => [
    `The tip stands about ${plan.say(plan.amount('distance'))} above the first face, above the part and everything near it: at that height it travels to the second face and back. The edge between the faces lies about half-way.`,
  ],
  cautions: [],
  conditions,
  part: (plan) => {
    const [apart, step] = [plan.amount('apart'), plan.amount('step')];
    const { along, sign } = wayOf(plan);
    const [x, y] = directionOf(along);
    const degrees = (Math.atan2(sign * y, sign * x) * 180) / Math.PI;
    const first = -plan.amount('distance');
    return {
      solids: [
        blockBeyond(-apart / 2, degrees + 180, first, apart + 60),
        blockBeyond(apart / 2, degrees, first + step, apart + 60),
      ],
      places: [],
      results: { measuredStep: step },
    };
  },
  motion: measureStep,
};

function measureStep(plan: Plan, motion: Motion): void {
  const { along, sign } = wayOf(plan);
  const home = typeof along === 'string' ? start[along] : length(0);
  const distance = plan.input('distance');
  const first = touchDown(plan, motion, distance, 'first');
  motion.note('At the height of the start to the second face.');
  motion.guard(along, shifted(home, sign, plan.input('apart')));
  const second = touchDown(plan, motion, minus(distance, plan.input('step')), 'second');
  motion.note('Back over the first.');
  motion.across(along, home);
  motion.note('The tool length is in both heights, so that in the step it cancels.');
  motion.set('measuredStep', minus(second, first), 'result');
}

function touchDown(plan: Plan, motion: Motion, distance: Expression, into: string): Expression {
  return motion.touch({
    along: 'z',
    sign: -1,
    expected: minus(start.z, distance),
    margin: plan.amount('margin'),
    approach: true,
    into,
  });
}

function conditions(plan: Plan): readonly Condition[] {
  const least = plan.amount('margin') + plan.pace.approach;
  const distance = plan.input('distance');
  return [
    farEnough(plan),
    {
      inputs: ['distance', 'step', 'margin'],
      left: distance,
      right: plus(plan.input('step'), length(least)),
      message: `Above the second face too the distance must be at least the search margin and ${plan.say(plan.pace.approach)} more.`,
      short: 'step too high',
    },
    {
      inputs: ['apart', 'margin'],
      left: plan.input('apart'),
      right: length(2 * (plan.amount('margin') + plan.tipRadius)),
      message: `The two places must be at least the diameter of the tip and twice the search margin apart, else the tip may meet the edge between the faces.`,
      short: 'places too near',
    },
  ];
}

function wayOf(plan: Plan): Way {
  const ray = { base: start, degrees: plan.amount('angle') };
  return ways[plan.choice('direction')] ?? { along: ray, sign: 1 };
}
