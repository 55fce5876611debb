import { angleOf, length, minus, over, plus, shifted } from './expression.ts';
import { type Motion, start } from './motion.ts';
import { blockBeyond } from './nominalPart.ts';
import type { Condition, Plan, Routine } from './routine.ts';
import { agreementInput, depthInput, leastDepth, marginInput, workOffsetInput } from './sharedInputs.ts';
import { topBeside } from './widthFeature.ts';

interface Way {
  readonly along: 'x' | 'y';
  readonly sign: 1 | -1;
  readonly degrees: number;
}

const ways: Readonly<Record<string, Way>> = {
  'X+': { along: 'x', sign: 1, degrees: 0 },
  'X-': { along: 'x', sign: -1, degrees: 180 },
  'Y+': { along: 'y', sign: 1, degrees: 90 },
  'Y-': { along: 'y', sign: -1, degrees: 270 },
};

export const edgeAngle: Routine = {
  name: 'edge-angle',
  title: 'Edge angle',
  summary:
    'Two places of an upright face are touched: how far the part stands turned. The work offset is turned by it, or it is reported.',
  subroutine: { name: 'probe_edge_angle', number: 8111 },
  inputs: [
    {
      name: 'direction',
      title: 'Direction',
      help: 'The way the tip moves to meet the face.',
      type: 'choice',
      default: () => 'Y+',
      choices: [
        { value: 'X+', title: 'moving in X+: the edge runs along Y' },
        { value: 'X-', title: 'moving in X-: the edge runs along Y' },
        { value: 'Y+', title: 'moving in Y+: the edge runs along X' },
        { value: 'Y-', title: 'moving in Y-: the edge runs along X' },
      ],
      required: true,
      argument: false,
    },
    {
      name: 'spacing',
      title: 'Spacing',
      help: 'From the first touch to the second, towards X+ or Y+. The longer, the better the angle.',
      type: 'length',
      default: () => 50,
      least: () => 5,
      greatest: () => 1000,
      required: true,
      argument: true,
    },
    {
      name: 'distance',
      title: 'Distance',
      help: 'About how far the tip has to travel from where it starts until it touches the face.',
      type: 'length',
      default: ({ pace }) => 10 + pace.approach,
      least: ({ pace }) => 1 + pace.approach,
      greatest: () => 500,
      required: true,
      argument: true,
    },
    depthInput(
      'How far the tip goes down beside the face before it looks for it; 0 to touch at the height of the start.',
      () => 0,
    ),
    {
      name: 'result',
      title: 'Result',
      help: 'Where the dialect keeps a rotation in the work offset, this turns it, so that the program runs along the edge; where it has none, the angle is reported, and the text says which block turns the program.',
      type: 'choice',
      default: () => 'rotation',
      choices: [
        { value: 'rotation', title: 'the work offset is turned' },
        { value: 'report', title: 'the angle is reported' },
      ],
      required: false,
      argument: false,
    },
    workOffsetInput,
    marginInput,
    agreementInput,
  ],
  results: [{ name: 'turned', title: 'the angle of the edge', kind: 'angle' }],
  start: (plan) => [
    `The tip stands beside the face, about ${plan.say(plan.amount('distance'))} from touching it in ${plan.choice('direction')}; ${plan.say(plan.amount('spacing'))} further along in ${wayOf(plan).along === 'x' ? 'Y' : 'X'}+ it stands as free.`,
    goesDown(plan)
      ? `It stands above the part and everything near it, and ${plan.say(plan.amount('depth'))} below it the face is solid and the way to it free.`
      : 'It stands at the height at which it is to touch.',
  ],
  cautions: [],
  conditions,
  part: (plan) => {
    const { degrees } = wayOf(plan);
    const at = plan.amount('distance') + plan.tipRadius;
    const top = goesDown(plan) ? topBeside(plan) : 20;
    return {
      solids: [blockBeyond(at, degrees, top, plan.amount('spacing') + 60)],
      places: [],
      reach: plan.amount('spacing'),
      results: { turned: 0 },
    };
  },
  motion: measureEdge,
};

function measureEdge(plan: Plan, motion: Motion): void {
  const { along, sign } = wayOf(plan);
  const other = along === 'x' ? 'y' : 'x';
  const touch = (into: string) => {
    if (goesDown(plan)) motion.down(plan.input('depth'));
    const latched = motion.touch({
      along,
      sign,
      expected: shifted(start[along], sign, plan.input('distance')),
      margin: plan.amount('margin'),
      approach: true,
      into,
    });
    if (goesDown(plan)) motion.rise();
    return latched;
  };
  const first = touch('first');
  motion.note('Along the edge to the second place.');
  motion.guard(other, plus(start[other], plan.input('spacing')));
  const second = touch('second');
  motion.note('Back over the first place.');
  motion.across(other, start[other]);
  motion.note('Both touches went the same way, so that the tip diameter cancels.');
  const rise = along === 'y' ? minus(second, first) : minus(first, second);
  const slope = motion.set('slope', over(rise, plan.input('spacing')), 'slope of the edge');
  const turned = motion.set('turned', angleOf(slope), 'result: degrees, counter-clockwise');
  if (plan.choice('result') === 'rotation') motion.turnOffset(turned);
}

function conditions(plan: Plan): readonly Condition[] {
  const least = plan.amount('margin') + plan.pace.approach;
  const distance: Condition = {
    inputs: ['distance', 'margin'],
    left: plan.input('distance'),
    right: length(least),
    message: `The distance must be at least the search margin and ${plan.say(plan.pace.approach)} more.`,
    short: 'distance too short',
  };
  if (!goesDown(plan)) return [distance];
  const depth: Condition = {
    inputs: ['depth'],
    left: plan.input('depth'),
    right: length(leastDepth(plan)),
    message: `The depth must be 0 or at least ${plan.say(leastDepth(plan))}.`,
    short: 'depth too small',
  };
  return [depth, distance];
}

function wayOf(plan: Plan): Way {
  return ways[plan.choice('direction')] ?? { along: 'y', sign: 1, degrees: 90 };
}

function goesDown(plan: Plan): boolean {
  return plan.amount('depth') > 0;
}
