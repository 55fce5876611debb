import type { Along } from './along.ts';
import { type Expression, half, length, shifted } from './expression.ts';
import type { Motion } from './motion.ts';
import type { Condition, Facts, Plan } from './routine.ts';
import { usualMargin } from './sharedInputs.ts';

/** One of two walls that face each other, or turn their backs to each other. */
export interface Wall {
  readonly along: Along;
  /** Coordinate along the line of the middle between the walls, as far as it is known. */
  readonly middle: Expression;
  readonly side: 1 | -1;
  /** From wall to wall. */
  readonly width: Expression;
  readonly into: string;
}

/** Touches the wall from within, at the height of the tip, and comes back to where it stood. `width` in mm. */
export function touchFromInside(plan: Plan, motion: Motion, wall: Wall, width: number): Expression {
  return motion.touch({
    along: wall.along,
    sign: wall.side,
    expected: ballAtWall(plan, wall, 'inside'),
    margin: plan.amount('margin'),
    approach: approaches(plan, width),
    into: wall.into,
  });
}

/** At the level outwards, down beside the wall, touches it from outside and comes up again. */
export function touchFromOutside(plan: Plan, motion: Motion, wall: Wall): Expression {
  const { along, side, into } = wall;
  const place = shifted(wall.middle, side, half(wall.width));
  motion.guard(along, shifted(place, side, length(standOff(plan))));
  motion.down(plan.input('depth'));
  const latched = motion.touch({
    along,
    sign: side > 0 ? -1 : 1,
    expected: ballAtWall(plan, wall, 'outside'),
    margin: plan.amount('margin'),
    approach: true,
    into,
  });
  motion.rise();
  return latched;
}

/** What walls that are touched from within must leave room for; `width` is the input that says how far apart they are. */
export function roomInside(plan: Plan, width: string, what: string): readonly Condition[] {
  const least = leastWidth(plan);
  const approached = approachedFrom(plan);
  const short = `${what} too small`;
  const forTip: Condition = {
    inputs: [width, 'agreement'],
    left: plan.input(width),
    right: length(least),
    message: `The ${what} must be at least ${plan.say(least)} wide: the tip and room to back off on both sides.`,
    short,
  };
  if (!approaches(plan, plan.amount(width))) return [forTip];
  return [
    forTip,
    {
      inputs: [width, 'margin'],
      left: plan.input(width),
      right: length(approached),
      message: `With this search margin the quick approach needs a ${what} of ${plan.say(approached)}.`,
      short,
    },
  ];
}

/** A way from where the tip stands, mm beside the expression, to the wall that it looks for. */
export interface WayToWall {
  readonly inputs: readonly string[];
  readonly way: Expression;
  readonly wayMm: number;
  /** What the message calls the way. */
  readonly what: string;
  /** For the control's screen. */
  readonly short: string;
}

/** What a way to a wall must be long enough for. */
export function roomToWall(plan: Plan, { inputs, way, wayMm, what, short }: WayToWall): readonly Condition[] {
  const least = leastWay(plan);
  const forTip: Condition = {
    inputs: [...inputs, 'agreement'],
    left: way,
    right: length(least),
    message: `The ${what} must be at least ${plan.say(least)}: the radius of the tip and room to back off.`,
    short,
  };
  if (!approachesOver(plan, wayMm)) return [forTip];
  const approached = approachedFrom(plan) / 2;
  return [
    forTip,
    {
      inputs: [...inputs, 'margin'],
      left: way,
      right: length(approached),
      message: `With this search margin the quick approach needs a ${what} of ${plan.say(approached)}.`,
      short,
    },
  ];
}

/** What stands between walls that are touched from outside must be wide enough for a search to end in it. */
export function widthOutside(plan: Plan, width: string, what: string): Condition {
  return {
    inputs: [width, 'margin'],
    left: half(plan.input(width)),
    right: length(plan.amount('margin') - plan.tipRadius),
    message: `The search margin must not exceed half the width of the ${what} and the radius of the tip, else a search runs past the middle.`,
    short: `${what} too small`,
  };
}

/** Usual width of what is touched from outside, mm: wide enough for the usual search margin. */
export function usualOutside(facts: Facts, usual: number): number {
  return Math.max(usual, Math.ceil(2 * usualMargin(facts) - facts.probe.tipDiameter + 1));
}

/** Usual width between walls that are touched from inside, mm: the tip has room. */
export function usualInside(facts: Facts, usual: number): number {
  return Math.max(usual, Math.ceil(1.5 * leastWidth(facts)));
}

/** Room for the tip to stand in the middle and to back off from either wall, mm. */
export function leastWidth({ probe, pace }: Facts): number {
  return probe.tipDiameter + 2 * (pace.backOff + 0.2);
}

/** Room for the tip to stand beside a wall and to back off from it: from the wall to its axis, mm. */
export function leastWay(facts: Facts): number {
  return leastWidth(facts) / 2;
}

/** Whether the tip travels near a wall that is so far away before it searches. */
export function approachesOver(plan: Plan, wayMm: number): boolean {
  return approaches(plan, 2 * wayMm);
}

/** From the wall to the axis of the tip where it goes down outside of it, mm. */
export function standOff(plan: Plan): number {
  return plan.tipRadius + plan.amount('margin') + plan.pace.approach;
}

/** Between wide walls the tip travels near the wall before it searches; between narrow ones it searches from the middle. */
function approaches(plan: Plan, width: number): boolean {
  return width >= approachedFrom(plan);
}

function approachedFrom(plan: Plan): number {
  return 2 * (plan.tipRadius + plan.amount('margin') + plan.pace.approach);
}

/** Centre of the ball where it touches the wall: a tip radius short of it from inside, beyond it from outside. */
function ballAtWall(plan: Plan, { middle, side, width }: Wall, ball: 'inside' | 'outside'): Expression {
  const place = shifted(middle, side, half(width));
  return shifted(place, side, length(ball === 'inside' ? -plan.tipRadius : plan.tipRadius));
}
