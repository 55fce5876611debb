import type { Profile } from '../profile/profile.ts';
import { type DescribedInput, describe } from './describe.ts';
import { Motion, type Step } from './motion.ts';
import { planOf } from './plan.ts';
import type { Plan, Routine, Units } from './routine.ts';
import { writes } from './writing.ts';

/** A routine's page in Markdown, from its declaration, with the numbers of this probe. */
export function documentation(routine: Routine, units: Units, profile: Profile): string {
  const { title, summary, inputs, results } = describe(routine, units, profile);
  const planned = planOf(routine, {}, profile, units);
  const start = 'plan' in planned ? routine.start(planned.plan) : [];
  const motion = 'plan' in planned ? motionOf(routine, planned.plan) : [];
  return [
    `# ${title}`,
    summary,
    '**Prove it above the part first, in single block, with reduced rapids and a hand on the stop.** The manual of the machine builder, local rules and trained people have the last word.',
    '## Before it starts',
    list([
      'The probe hangs in the spindle as it was calibrated, with its tool length in force.',
      ...start,
      'Rotation, mirror image and scaling are off.',
    ]),
    ...(routine.cautions.length > 0 ? ['## Cautions', list(routine.cautions)] : []),
    '## What it asks',
    table(inputs),
    '## What it finds',
    list(results.map((result) => `\`${result.name}\`: ${result.title}`)),
    '## How it moves',
    list(howItMoves(motion)),
    ...(looksAside(motion) ? ['## What it can not see', list(beyondSight)] : []),
  ].join('\n\n');
}

const howItMoves = (steps: readonly Step[]) => [
  'There is no rapid move. Travel into the unknown is guarded: it stops at a touch, and a way that did not reach its end stops the program.',
  'Each place is touched twice: a quick search finds it, a slow touch measures it. The two must agree.',
  'A touch that fails goes back the way it came and up, puts the modes back and stops with a message.',
  writes({ steps }, 'rs274ngc')
    ? 'The work offset is written last, after every touch succeeded.'
    : 'It writes no work offset.',
  'With a probe that gives no signal the search goes on to its end: as far behind the surface as the search margin. Keep the margin small.',
];

/** What no touch from the side shows. */
const beyondSight = [
  'A tool length or a part that is off in height by more than the wall stands above the middle of the ball: the ball meets the edge, and each face seems to lie further in than it does. Go deep enough, and measure the height first.',
];

function motionOf(routine: Routine, plan: Plan): readonly Step[] {
  const motion = new Motion(plan.pace);
  routine.motion(plan, motion);
  return motion.steps;
}

function looksAside(steps: readonly Step[]): boolean {
  return steps.some((step) => step.kind === 'measure' && step.along !== 'z');
}

function table(inputs: readonly DescribedInput[]): string {
  const rows = inputs.map(
    (input) => `| \`${input.name}\` | ${input.title} | ${usual(input)} | ${range(input)} | ${input.help} |`,
  );
  return ['| input | title | usual | allowed | |', '|---|---|---|---|---|', ...rows].join('\n');
}

function usual({ default: value, unit }: DescribedInput): string {
  return typeof value === 'number' ? measured(value, unit) : String(value);
}

function range({ least, greatest, unit, choices }: DescribedInput): string {
  if (choices !== null) return choices.map((choice) => `\`${choice.value}\` ${choice.title}`).join('; ');
  const parts = [
    least === null ? '' : `from ${measured(least, unit)}`,
    greatest === null ? '' : `to ${measured(greatest, unit)}`,
  ];
  return parts.filter(Boolean).join(' ');
}

function measured(value: number, unit: string | null): string {
  return unit === null ? String(value) : `${value} ${unit}`;
}

function list(items: readonly string[]): string {
  return items.map((item) => `- ${item}`).join('\n');
}
