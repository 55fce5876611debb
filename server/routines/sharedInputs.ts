import { defaultAgreement, leastAgreement } from './pace.ts';
import type { Condition, Facts, Input, Plan } from './routine.ts';

/** How deep the tip goes down from where it starts; the start is above the part, so the ball must get wholly below it. */
export function depthInput(help: string, least = leastDepth, usual = (_: Facts): number => 15): Input {
  return {
    name: 'depth',
    title: 'Depth',
    help,
    type: 'length',
    default: (facts) => usual(facts),
    least,
    greatest: () => 300,
    required: true,
    argument: true,
  };
}

/** From the start down to what a touch in Z meets. */
export function distanceAboveInput(help: string): Input {
  return {
    name: 'distance',
    title: 'Distance',
    help,
    type: 'length',
    default: ({ pace }) => 10 + pace.approach,
    least: ({ pace }) => 1 + pace.approach,
    greatest: () => 500,
    required: true,
    argument: true,
  };
}

/** The search begins below where the tip starts. */
export function farEnough(plan: Plan): Condition {
  return {
    inputs: ['distance', 'margin'],
    left: plan.input('distance'),
    right: { kind: 'length', mm: plan.amount('margin') + plan.pace.approach },
    message: `The distance must be at least the search margin and ${plan.say(plan.pace.approach)} more.`,
    short: 'distance too short',
  };
}

/** mm. */
export function leastDepth({ probe }: Facts): number {
  return probe.tipDiameter / 2 + 1;
}

export const marginInput: Input = {
  name: 'margin',
  title: 'Search margin',
  help: 'The surface is looked for from this far before to this far behind the place where it should be. A smaller margin costs less if something is wrong; it must be larger than the part may be off its place.',
  type: 'length',
  default: ({ profile }) => Math.min(25, Math.max(3, 2 * (profile.placementUncertainty ?? 2.5))),
  least: () => 1,
  greatest: () => 50,
  required: false,
  argument: false,
};

export const agreementInput: Input = {
  name: 'agreement',
  title: 'Agreement',
  help: 'Each place is touched twice, quickly and slowly. If the two differ by more than this, something tripped the probe that was not the surface, and the routine stops.',
  type: 'length',
  default: ({ profile, probe }) => defaultAgreement(profile, probe),
  least: ({ profile, probe }) => leastAgreement(profile, probe),
  greatest: ({ profile, probe }) => Math.max(0.5, 2 * defaultAgreement(profile, probe)),
  required: false,
  argument: false,
};

export const workOffsetInput: Input = {
  name: 'workOffset',
  title: 'Work offset',
  help: 'The work offset that gets the result. One that is named is put in force while the routine measures, so that it is measured in what it writes.',
  type: 'choice',
  default: () => 'active',
  choices: [
    { value: 'active', title: 'the one in force' },
    ...['G54', 'G55', 'G56', 'G57', 'G58', 'G59'].map((value) => ({ value, title: value })),
  ],
  required: true,
  argument: false,
};

/** The coordinate that what was measured gets. */
export function coordinateInput(name: string, title: string): Input {
  return {
    name,
    title,
    help: 'In the work offset that is written.',
    type: 'length',
    default: () => 0,
    required: false,
    argument: true,
  };
}
