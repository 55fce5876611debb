import type { Profile } from '../profile/profile.ts';
import { type Description, describe } from './describe.ts';
import { Motion, type Step } from './motion.ts';
import { planOf } from './plan.ts';
import type { InputValue, Plan, Routine, Units } from './routine.ts';
import { writes } from './writing.ts';

/** What a person reads of a routine before it is written, from its declaration, with the numbers of this probe. */
export interface Documentation extends Description {
  /** What must be so before it starts, as sentences. */
  readonly before: readonly string[];
  readonly cautions: readonly string[];
  readonly moves: readonly string[];
  /** What no touch of it shows. */
  readonly unseen: readonly string[];
}

/** With these inputs; what depends on them is left out where they make no routine. */
export function documentation(
  routine: Routine,
  units: Units,
  profile: Profile,
  given: Readonly<Record<string, InputValue>> = {},
): Documentation {
  const planned = planOf(routine, given, profile, units);
  const start = 'plan' in planned ? routine.start(planned.plan) : [];
  const motion = 'plan' in planned ? motionOf(routine, planned.plan) : [];
  return {
    ...describe(routine, units, profile),
    before: [
      'The probe hangs in the spindle as it was calibrated, with its tool length in force.',
      ...start,
      'Rotation, mirror image and scaling are off.',
    ],
    cautions: routine.cautions,
    moves: howItMoves(motion),
    unseen: looksAside(motion) ? beyondSight : [],
  };
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
