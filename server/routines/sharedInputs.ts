import { length } from './expression.ts';
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

export const wholeWall =
  'How far the tip goes down from where it starts, to a height where the wall is whole.';

/** From the start to the face that a touch meets. */
export function distanceInput(help: string): Input {
  return {
    name: 'distance',
    title: 'Distance',
    help,
    type: 'length',
    default: (facts) => Math.max(10, usualMargin(facts) + 1) + facts.pace.approach,
    least: ({ pace }) => 1 + pace.approach,
    greatest: () => 500,
    required: true,
    argument: true,
  };
}

/** The same beside an upright face. */
export const distanceBesideInput = distanceInput(
  'About how far the tip has to travel from where it starts until it touches the face.',
);

/** Beside an upright face; 0 where the tip stands at its height already. */
export function depthBesideInput(except = ''): Input {
  return depthInput(
    `How far the tip goes down beside the face before it looks for it; 0 to touch at the height of the start.${except}`,
    () => 0,
  );
}

/** What `depthBesideInput` must be. */
export function deepEnough(plan: Plan): Condition {
  return {
    inputs: ['depth'],
    left: plan.input('depth'),
    right: length(leastDepth(plan)),
    message: `The depth must be 0 or at least ${plan.say(leastDepth(plan))}.`,
    short: 'depth too small',
  };
}

/** Where the tip stands at the start beside an upright face. */
export function standsBeside(plan: Plan): string {
  const depth = plan.amount('depth');
  return depth > 0
    ? `It stands above the part and everything near it, and ${plan.say(depth)} below it the face is solid and the way to it free.`
    : 'It stands at the height at which it is to touch.';
}

/** Of touches around, counter-clockwise from X+. */
export function firstAngleInput(help: string): Input {
  return {
    name: 'firstAngle',
    title: 'First direction',
    help,
    type: 'angle',
    default: () => 0,
    least: () => -180,
    greatest: () => 180,
    required: false,
    argument: false,
  };
}

/** From the first touch of a face to the second, towards `way`. */
export function spacingInput(way: string, usual: number): Input {
  const help = `From the first touch to the second, towards ${way}. The longer, the better the angle.`;
  return leverInput({ name: 'spacing', title: 'Spacing', help }, usual);
}

/** A distance between touches that an angle is made of. */
export function leverInput(words: Pick<Input, 'name' | 'title' | 'help'>, usual: number): Input {
  return {
    ...words,
    type: 'length',
    default: () => usual,
    least: () => 5,
    greatest: () => 1000,
    isEffort: true,
    required: true,
    argument: true,
  };
}

/** The search begins below where the tip starts. */
export function farEnough(plan: Plan): Condition {
  return {
    inputs: ['distance', 'margin'],
    left: plan.input('distance'),
    right: length(plan.amount('margin') + plan.pace.approach),
    message: `The distance must be at least the search margin and ${plan.say(plan.pace.approach)} more.`,
    short: 'distance too short',
  };
}

/** mm. */
export function leastDepth({ probe }: Facts): number {
  return probe.tipDiameter / 2 + 1;
}

/** The search margin where nobody chose one, mm. */
export function usualMargin({ profile }: Facts): number {
  return Math.min(25, Math.max(3, 2 * (profile.placementUncertainty ?? 2.5)));
}

export const marginInput: Input = {
  name: 'margin',
  title: 'Search margin',
  help: 'The surface is looked for from this far before to this far behind the place where it should be. A smaller margin costs less if something is wrong; it must be larger than the part may be off its place.',
  type: 'length',
  default: usualMargin,
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
