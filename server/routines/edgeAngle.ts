import { angleInput } from './across.ts';
import { type Level, targetsOn } from './along.ts';
import { angleOf, type Expression, length, minus, over, plus, shifted } from './expression.ts';
import { type Motion, start } from './motion.ts';
import { blockBeyond } from './nominalPart.ts';
import type { Plan, Routine } from './routine.ts';
import {
  agreementInput,
  deepEnough,
  depthBesideInput,
  distanceBesideInput,
  farEnough,
  marginInput,
  spacingInput,
  standsBeside,
  workOffsetInput,
} from './sharedInputs.ts';
import { topBeside } from './widthFeature.ts';

interface Way {
  readonly along: Level;
  readonly sign: 1 | -1;
  /** From the first place to the second. */
  readonly further: Level;
  /** Whether an edge that turns counter-clockwise lies further on in `along` at the second place. */
  readonly isFurther: boolean;
  /** The way of the touch, from X+. */
  readonly degrees: number;
  /** For the person at the machine. */
  readonly touched: string;
  readonly spaced: string;
}

const [alongX, alongY] = [
  { along: 'x', further: 'y', isFurther: false, spaced: 'in Y+' },
  { along: 'y', further: 'x', isFurther: true, spaced: 'in X+' },
] as const;

const ways: Readonly<Record<string, Way>> = {
  'X+': { ...alongX, sign: 1, degrees: 0, touched: 'in X+' },
  'X-': { ...alongX, sign: -1, degrees: 180, touched: 'in X-' },
  'Y+': { ...alongY, sign: 1, degrees: 90, touched: 'in Y+' },
  'Y-': { ...alongY, sign: -1, degrees: 270, touched: 'in Y-' },
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
        { value: 'angle', title: 'moving at an angle in the plane' },
      ],
      required: true,
      argument: false,
    },
    angleInput(
      'The way the tip moves, counter-clockwise from X+: square to the edge as the drawing has it. Used at an angle alone; how far the edge is turned from that is the result.',
      30,
    ),
    spacingInput('X+ or Y+; at an angle, to the left of the way the tip moves', 50),
    distanceBesideInput,
    depthBesideInput(),
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
  start: (plan) => {
    const { touched, spaced } = wayOf(plan);
    return [
      `The tip stands beside the face, about ${plan.say(plan.amount('distance'))} from touching it ${touched}; ${plan.say(plan.amount('spacing'))} further along ${spaced} it stands as free.`,
      standsBeside(plan),
    ];
  },
  cautions: [],
  conditions: (plan) => (goesDown(plan) ? [deepEnough(plan), farEnough(plan)] : [farEnough(plan)]),
  part: (plan) => {
    const at = plan.amount('distance') + plan.tipRadius;
    const top = goesDown(plan) ? topBeside(plan) : 20;
    return {
      solids: [blockBeyond(at, wayOf(plan).degrees, top, plan.amount('spacing') + 60)],
      places: [],
      reach: plan.amount('spacing'),
      results: { turned: 0 },
    };
  },
  motion: measureEdge,
};

function measureEdge(plan: Plan, motion: Motion): void {
  const { along, further, isFurther } = wayOf(plan);
  const first = touchEdge(plan, motion, along, 'first');
  motion.note('Along the edge to the second place.');
  const second = touchEdge(plan, motion, travelFurther(plan, motion), 'second');
  motion.note('Back over the first place.');
  motion.across(further, typeof further === 'string' ? start[further] : length(0));
  motion.note('Both touches went the same way, so that the tip diameter cancels.');
  const rise = isFurther ? minus(second, first) : minus(first, second);
  const slope = motion.set('slope', over(rise, plan.input('spacing')), 'slope of the edge');
  const turned = motion.set('turned', angleOf(slope), 'result: degrees, counter-clockwise');
  if (plan.choice('result') === 'rotation') motion.turnOffset(turned);
}

/** Coordinate of the ball's centre along the line; the tip ends where it stood. */
function touchEdge(plan: Plan, motion: Motion, along: Level, into: string): Expression {
  if (goesDown(plan)) motion.down(plan.input('depth'));
  const latched = motion.touch({
    along,
    sign: wayOf(plan).sign,
    expected: shifted(
      typeof along === 'string' ? start[along] : length(0),
      wayOf(plan).sign,
      plan.input('distance'),
    ),
    margin: plan.amount('margin'),
    approach: true,
    into,
  });
  if (goesDown(plan)) motion.rise();
  return latched;
}

/** To the second place, and the line of the touch there. */
function travelFurther(plan: Plan, motion: Motion): Level {
  const { along, further } = wayOf(plan);
  const spacing = plan.input('spacing');
  if (typeof further === 'string') {
    motion.guard(further, plus(start[further], spacing));
    return along;
  }
  const [x = start.x, y = start.y] = targetsOn(further, spacing).map(({ axis, to }) =>
    motion.set(`second${axis.toUpperCase()}`, to, 'the second place'),
  );
  motion.guard({ ...further, base: { x, y } }, length(0));
  return { base: { x, y }, degrees: plan.amount('angle') };
}

function wayOf(plan: Plan): Way {
  const degrees = plan.amount('angle');
  return (
    ways[plan.choice('direction')] ?? {
      along: { base: start, degrees },
      sign: 1,
      further: { base: start, degrees: degrees + 90 },
      isFurther: false,
      degrees,
      touched: `at ${degrees} degrees`,
      spaced: `at ${degrees + 90} degrees`,
    }
  );
}

function goesDown(plan: Plan): boolean {
  return plan.amount('depth') > 0;
}
