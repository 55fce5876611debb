import { half, minus, number, over, plus, shifted } from './expression.ts';
import { type Motion, start } from './motion.ts';
import { block, longSide, placeAlong } from './nominalPart.ts';
import type { Plan, Routine } from './routine.ts';
import {
  agreementInput,
  coordinateInput,
  depthInput,
  distanceInput,
  farEnough,
  leastDepth,
  marginInput,
  workOffsetInput,
} from './sharedInputs.ts';
import { standOff, touchFromOutside, usualOutside, widthOutside } from './walls.ts';
import { widthInput } from './widthFeature.ts';

export const rotaryAxis: Routine = {
  name: 'rotary-axis',
  title: 'Centre line of a fourth axis',
  summary:
    'The line that an axis turns about: a bar in its chuck is touched from both sides at 0 and 180 degrees and from above at 90 and 270. The bar need not run true.',
  subroutine: { name: 'probe_rotary_axis', number: 8119 },
  inputs: [
    {
      name: 'axis',
      title: 'Axis',
      help: 'A turns about X, and its line lies in Y and Z; B turns about Y, and its line lies in X and Z.',
      type: 'choice',
      default: () => 'A',
      choices: [
        { value: 'A', title: 'A: the bar lies along X' },
        { value: 'B', title: 'B: the bar lies along Y' },
      ],
      required: true,
      argument: false,
    },
    widthInput(
      'Across the bar, the same at 0 and at 90 degrees: a square bar, or a round one.',
      (facts) => usualOutside(facts, 20),
      () => 2,
    ),
    distanceInput('About how far the tip is above the bar, over its middle.'),
    depthInput(
      'How far below the top of the bar its sides are touched: of a round bar half of its width.',
      leastDepth,
      () => 10,
    ),
    coordinateInput('becomes', 'Coordinate of the line in Y or X'),
    coordinateInput('becomesZ', 'Z of the line'),
    workOffsetInput,
    marginInput,
    agreementInput,
  ],
  results: [
    { name: 'line', title: 'the line in Y or X', kind: 'coordinate' },
    { name: 'lineZ', title: 'the line in Z', kind: 'coordinate' },
    { name: 'measuredWidth', title: 'the width of the bar', kind: 'size' },
  ],
  start: (plan) => [
    `The tip stands about ${plan.say(plan.amount('distance'))} above the bar, over its middle, and above everything that turns with it at every angle.`,
    `With the tip ${plan.say(plan.amount('distance') + plan.amount('depth'))} below its start it is beside the bar, and within ${plan.say(standOff(plan) + plan.tipRadius)} of its sides nothing else stands.`,
    'The axis may turn from 0 to 270 degrees.',
  ],
  cautions: ['The axis turns while the program runs, from where it stands to 0 degrees first.'],
  conditions: (plan) => [farEnough(plan), widthOutside(plan, 'width', 'bar')],
  part: (plan) => {
    const across = acrossOf(plan);
    const [wide, long] = [plan.amount('width') / 2, longSide];
    const top = -plan.amount('distance');
    return {
      solids: [across === 'x' ? block(wide, long, top) : block(long, wide, top)],
      places: [
        placeAlong(across, 0, plan.amount('becomes')),
        placeAlong('z', top - wide, plan.amount('becomesZ')),
      ],
      results: { measuredWidth: plan.amount('width') },
    };
  },
  motion: measureAxis,
};

function measureAxis(plan: Plan, motion: Motion): void {
  const axis = plan.choice('axis') === 'A' ? 'a' : 'b';
  const across = acrossOf(plan);
  motion.index(axis, 0);
  const first = touchSides(plan, motion, 1);
  motion.index(axis, 90);
  const front = touchTop(plan, motion, 'topFirst');
  motion.index(axis, 180);
  const second = touchSides(plan, motion, 2);
  motion.index(axis, 270);
  const back = touchTop(plan, motion, 'topSecond');
  motion.index(axis, 0);
  motion.note('Sides that are opposite at 0 and at 180 degrees lie the same way off the line.');
  const centre = motion.set('line', half(plus(first.middle, second.middle)), 'result: the mean');
  const ways = motion.set('ways', half(plus(first.way, second.way)), 'mean way from side to side');
  const width = motion.set('measuredWidth', minus(ways, motion.tip()), 'result');
  motion.note('What was a side lies on top now: half of the width below the mean of both is the line.');
  const top = motion.set('top', half(plus(front, back)), 'mean height');
  const line = motion.set('lineZ', minus(top, over(width, number(2))), 'result');
  motion.write([
    { axis: across, measured: centre, becomes: plan.input('becomes') },
    { axis: 'z', measured: line, becomes: plan.input('becomesZ') },
  ]);
}

/** Both sides of the bar; the tip ends over the start. */
function touchSides(plan: Plan, motion: Motion, time: 1 | 2) {
  const across = acrossOf(plan);
  const wall = { along: across, middle: start[across], width: plan.input('width') } as const;
  const fromStart = plus(plan.input('distance'), plan.input('depth'));
  const lowered: Plan = { ...plan, input: (own) => (own === 'depth' ? fromStart : plan.input(own)) };
  const lower = touchFromOutside(lowered, motion, { ...wall, side: -1, into: `lower${time}` });
  const upper = touchFromOutside(lowered, motion, { ...wall, side: 1, into: `upper${time}` });
  motion.across(across, start[across]);
  return { middle: half(plus(lower, upper)), way: minus(upper, lower) };
}

function touchTop(plan: Plan, motion: Motion, into: string) {
  return motion.touch({
    along: 'z',
    sign: -1,
    expected: shifted(start.z, -1, plan.input('distance')),
    margin: plan.amount('margin'),
    approach: true,
    into,
  });
}

function acrossOf(plan: Plan): 'x' | 'y' {
  return plan.choice('axis') === 'A' ? 'y' : 'x';
}
