import { half, length, shifted } from './expression.ts';
import { type Motion, start } from './motion.ts';
import type { Plan, Routine } from './routine.ts';
import {
  agreementInput,
  coordinateInput,
  depthInput,
  leastDepth,
  marginInput,
  workOffsetInput,
} from './sharedInputs.ts';

export const surface: Routine = {
  name: 'surface',
  title: 'Surface',
  summary: 'One face, met along X, Y or down Z, becomes a coordinate of the work offset.',
  subroutine: { name: 'probe_surface', number: 8101 },
  inputs: [
    {
      name: 'direction',
      title: 'Direction',
      help: 'The way the tip moves to meet the face. Z+ is not offered: a straight stylus has its stem there.',
      type: 'choice',
      default: () => 'X+',
      choices: [
        { value: 'X+', title: 'moving in X+' },
        { value: 'X-', title: 'moving in X-' },
        { value: 'Y+', title: 'moving in Y+' },
        { value: 'Y-', title: 'moving in Y-' },
        { value: 'Z-', title: 'moving down in Z-' },
      ],
      required: true,
      argument: false,
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
      'How far the tip goes down beside the face before it looks for it; 0 to touch at the height of the start. Not used in Z-.',
      () => 0,
    ),
    coordinateInput('becomes', 'Coordinate of the face'),
    workOffsetInput,
    marginInput,
    agreementInput,
  ],
  results: [{ name: 'surface', title: 'the face', kind: 'coordinate' }],
  start: (plan) =>
    plan.choice('direction') === 'Z-'
      ? [`The tip stands about ${plan.say(plan.amount('distance'))} above the face.`]
      : [
          `The tip stands beside the face, about ${plan.say(plan.amount('distance'))} from touching it in ${plan.choice('direction')}.`,
          plan.amount('depth') > 0
            ? `It stands above the part and everything near it, and ${plan.say(plan.amount('depth'))} below it the face is solid and the way to it free.`
            : 'It stands at the height at which it is to touch.',
        ],
  cautions: [],
  conditions: (plan) => [
    ...(goesDown(plan)
      ? [
          {
            inputs: ['depth'],
            left: plan.input('depth'),
            right: length(leastDepth(plan)),
            message: `The depth must be 0 or at least ${plan.say(leastDepth(plan))}.`,
            short: 'depth too small',
          },
        ]
      : []),
    {
      inputs: ['distance', 'margin'],
      left: plan.input('distance'),
      right: length(plan.amount('margin') + plan.pace.approach),
      message: `The distance must be at least the search margin and ${plan.say(plan.pace.approach)} more.`,
      short: 'distance too short',
    },
  ],
  motion: measureSurface,
};

function measureSurface(plan: Plan, motion: Motion): void {
  const [letter, sense] = plan.choice('direction');
  const axis = letter === 'X' ? 'x' : letter === 'Y' ? 'y' : 'z';
  const sign = sense === '+' ? 1 : -1;
  if (goesDown(plan)) {
    motion.note('Down beside the face, ready to stop.');
    motion.down(plan.input('depth'));
  }
  const latched = motion.touch({
    axis,
    sign,
    expected: shifted(start[axis], sign, plan.input('distance')),
    margin: plan.amount('margin'),
    approach: true,
    into: 'touched',
  });
  if (axis === 'z')
    motion.note('The tool length reaches to the lowest point of the tip, so nothing is added in Z.');
  else motion.note('The face is half the effective tip diameter further on than the centre of the tip.');
  const face = motion.set(
    'surface',
    axis === 'z' ? latched : shifted(latched, sign, half(motion.tip())),
    'result',
  );
  if (goesDown(plan)) motion.rise();
  motion.write([{ axis, measured: face, becomes: plan.input('becomes') }]);
}

/** Beside an upright face, where the start is above it. */
function goesDown(plan: Plan): boolean {
  return plan.choice('direction') !== 'Z-' && plan.amount('depth') > 0;
}
