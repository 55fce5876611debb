import { minus, plus, shifted } from './expression.ts';
import { type Motion, start } from './motion.ts';
import { block, longSide } from './nominalPart.ts';
import type { Input, Plan, Routine } from './routine.ts';
import { agreementInput, coordinateInput, distanceInput, farEnough, marginInput } from './sharedInputs.ts';

const toolInput: Input = {
  name: 'tool',
  title: 'Tool',
  help: 'The number under which the control keeps the length of the probe; the profile says it as probe.tool.',
  type: 'count',
  default: ({ profile }) => profile.probe.tool ?? 1,
  least: () => 1,
  greatest: () => 99,
  required: true,
  argument: false,
};

const gaugeInput: Input = {
  name: 'gauge',
  title: 'Gauge block',
  help: 'Height of the gauge block that lies on the reference face; 0 to touch the face itself.',
  type: 'length',
  default: () => 0,
  least: () => 0,
  greatest: () => 500,
  required: false,
  argument: true,
};

export const lengthReference: Routine = {
  name: 'length-reference',
  title: 'Length of the probe',
  summary:
    'The probe touches a reference face of known height, or a gauge block on it, and the tool table gets the length with which it would have found it there.',
  subroutine: { name: 'probe_length_reference', number: 8115 },
  inputs: [
    toolInput,
    distanceInput('About how far the tip is above what it will touch.'),
    coordinateInput('face', 'Z of the reference face'),
    gaugeInput,
    marginInput,
    agreementInput,
  ],
  results: [{ name: 'correction', title: 'what the length was short of', kind: 'coordinate' }],
  start: (plan) => [
    `The tip stands about ${plan.say(plan.amount('distance'))} above what it is to touch.`,
    `Tool ${plan.amount('tool')} is the probe, and its length is in force, right within the search margin.`,
    'The work offset in force is the one in which the height of the reference face is known.',
  ],
  cautions: [
    'It writes the length of the tool. Set with the measuring feed and this probe, it holds what the probe travels until it trips: all touches in Z that follow are right then.',
  ],
  conditions: (plan) => [farEnough(plan)],
  part: (plan) => ({
    solids: [block(longSide, longSide, -plan.amount('distance'))],
    places: [],
    results: {},
  }),
  motion: measureLength,
};

function measureLength(plan: Plan, motion: Motion): void {
  const latched = motion.touch({
    along: 'z',
    sign: -1,
    expected: shifted(start.z, -1, plan.input('distance')),
    margin: plan.amount('margin'),
    approach: true,
    into: 'touched',
  });
  motion.note('Where the face seems too high the probe is longer than its entry says.');
  const right = plus(plan.input('face'), plan.input('gauge'));
  const correction = motion.set('correction', minus(latched, right), 'result');
  motion.toolLength(plan.amount('tool'), correction);
}
