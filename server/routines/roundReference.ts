import type { Motion } from './motion.ts';
import { type NominalPart, plateAround, round } from './nominalPart.ts';
import type { RoundFeature } from './roundFeature.ts';
import type { Choice, Condition, Input, Plan } from './routine.ts';
import {
  leastWidth,
  roomInside,
  standOff,
  touchFromInside,
  touchFromOutside,
  usualInside,
  usualOutside,
  widthOutside,
} from './walls.ts';
import { topBeside } from './widthFeature.ts';

/** What a round feature that may be either is: touched from inside or from outside. */
export function insideOrOutsideInput(
  name: string,
  inside: string,
  outside: string,
  help: string,
  others: readonly Choice[] = [],
): Input {
  return {
    name,
    title: name === 'feature' ? 'Feature' : 'Reference',
    help,
    type: 'choice',
    default: () => inside,
    choices: [
      { value: inside, title: `a ${inside}, touched from inside` },
      { value: outside, title: `a ${outside}, touched from outside` },
      ...others,
    ],
    required: true,
    argument: false,
  };
}

export function roundDiameterInput(help: string): Input {
  return {
    name: 'diameter',
    title: 'Diameter',
    help,
    type: 'length',
    default: (facts) => Math.max(usualInside(facts, 25), usualOutside(facts, 25)),
    least: leastWidth,
    greatest: ({ profile: { machine } }) =>
      Math.min(1000, machine.travel?.x ?? Infinity, machine.travel?.y ?? Infinity),
    required: true,
    argument: true,
  };
}

/** How such a feature is touched, what room it needs, where the tip starts and what it looks like. */
export interface RoundReference {
  readonly what: string;
  readonly isInside: boolean;
}

/** As the input says that names it. */
export function roundOf(plan: Plan, input: 'feature' | 'reference'): RoundReference {
  const what = plan.choice(input);
  return { what, isInside: what === 'ring' || what === 'bore' };
}

export function featureOf(plan: Plan, motion: Motion, { isInside }: RoundReference): RoundFeature {
  return {
    ball: isInside ? 'inside' : 'outside',
    touchWall: isInside
      ? (wall) => touchFromInside(plan, motion, wall, plan.amount('diameter'))
      : (wall) => touchFromOutside(plan, motion, wall),
  };
}

export function roomFor(plan: Plan, { what, isInside }: RoundReference): readonly Condition[] {
  return isInside ? roomInside(plan, 'diameter', what) : [widthOutside(plan, 'diameter', what)];
}

export function startOver(plan: Plan, { what, isInside }: RoundReference): readonly string[] {
  const lower = plan.say(plan.amount('depth'));
  if (isInside)
    return [
      `The tip stands over the ${what}, about over its centre, above the part.`,
      `With the tip ${lower} lower its ball is wholly inside the ${what} and touches nothing.`,
    ];
  const clear = plan.say(standOff(plan) + plan.tipRadius);
  return [
    `The tip stands over the ${what}, about over its centre, above the part and everything near it: at that height it travels around.`,
    `With the tip ${lower} lower it is beside the wall of the ${what}, and within ${clear} of the wall nothing else stands.`,
  ];
}

export function nominalRound(plan: Plan, { isInside }: RoundReference): NominalPart['solids'] {
  const diameter = plan.amount('diameter');
  const top = topBeside(plan);
  if (!isInside) return [round('add', diameter, top)];
  return [plateAround(diameter / 2, diameter / 2, top), round('cut', diameter, top)];
}
