import { angleOf, minus, over, plus, shifted } from './expression.ts';
import { type Motion, start } from './motion.ts';
import { block, longSide } from './nominalPart.ts';
import type { Plan, Routine } from './routine.ts';
import { agreementInput, distanceInput, farEnough, marginInput, spacingInput } from './sharedInputs.ts';

export const levelFace: Routine = {
  name: 'level-face',
  title: 'Face to be levelled',
  summary:
    'Two touches down on a face tell by how much it is tilted about a rotary axis: turn that axis by the angle, and touch again.',
  subroutine: { name: 'probe_level_face', number: 8120 },
  inputs: [
    {
      name: 'axis',
      title: 'Axis',
      help: 'The rotary axis that can level the face: A turns about X, B about Y.',
      type: 'choice',
      default: () => 'A',
      choices: [
        { value: 'A', title: 'A: the touches lie along Y' },
        { value: 'B', title: 'B: the touches lie along X' },
      ],
      required: true,
      argument: false,
    },
    distanceInput('About how far the tip is above the face.'),
    spacingInput('Y+ (B: X+)', 40),
    marginInput,
    agreementInput,
  ],
  results: [
    { name: 'rise', title: 'how much the second place is higher', kind: 'size' },
    { name: 'tilt', title: 'the tilt of the face', kind: 'angle' },
  ],
  start: (plan) => [
    `The tip stands about ${plan.say(plan.amount('distance'))} above the face, and from there towards ${plan.choice('axis') === 'A' ? 'Y+' : 'X+'} the way is free.`,
  ],
  cautions: [
    'Which way a rotary axis counts differs from machine to machine: turn it a little, touch again, and see which way the tilt goes.',
  ],
  conditions: (plan) => [farEnough(plan)],
  part: (plan) => ({
    solids: [block(longSide, longSide, -plan.amount('distance'))],
    places: [],
    results: { rise: 0, tilt: 0 },
  }),
  motion: measureTilt,
};

function measureTilt(plan: Plan, motion: Motion): void {
  const across = plan.choice('axis') === 'A' ? 'y' : 'x';
  const touch = (into: string) =>
    motion.touch({
      along: 'z',
      sign: -1,
      expected: shifted(start.z, -1, plan.input('distance')),
      margin: plan.amount('margin'),
      approach: true,
      into,
    });
  const first = touch('firstZ');
  motion.note('Across at the height of the start, ready to stop.');
  motion.guard(across, plus(start[across], plan.input('spacing')));
  const second = touch('secondZ');
  motion.across(across, start[across]);
  const rise = motion.set('rise', minus(second, first), 'result');
  motion.set('tilt', angleOf(over(rise, plan.input('spacing'))), 'result: degrees');
}
