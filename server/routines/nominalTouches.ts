import { type Axis, directionOf, type Target, targetsOn } from './along.ts';
import { constant, derive } from './derivative.ts';
import type { Expression } from './expression.ts';
import { Motion, type Step } from './motion.ts';
import { inputVariables } from './plan.ts';
import type { Values } from './readInputs.ts';
import type { Plan, Routine } from './routine.ts';

type Point = readonly [x: number, y: number, z: number];

/** A measuring touch of the feature in its place; mm from where the tip stands at the start. */
export interface NominalTouch {
  /** The tip (the lowest point of its ball) at contact. */
  readonly tip: Point;
  /** Unit vector of the approach. */
  readonly direction: Point;
}

/** Where a routine touches, in its order, if the feature is where it should be. */
export function nominalTouches(routine: Routine, plan: Plan, values: Values): readonly NominalTouch[] {
  const motion = new Motion(plan.pace);
  routine.motion(plan, motion);
  const variables = inputVariables(values);
  const evaluate = (expression: Expression) =>
    derive(expression, { variables, tipDiameter: plan.probe.tipDiameter }).value;
  const tip: Record<Axis, number> = { x: 0, y: 0, z: 0 };
  const goTo = (targets: readonly Target[]) => {
    for (const { axis, to } of targets) tip[axis] = evaluate(to);
  };
  return motion.steps.flatMap((step: Step): NominalTouch[] => {
    if (step.kind === 'set') variables.set(step.name, constant(evaluate(step.value)));
    if (step.kind === 'guard') goTo(targetsOn(step.along, step.to));
    if (step.kind === 'back') goTo(step.targets);
    if (step.kind !== 'search' && step.kind !== 'measure') return [];
    goTo(targetsOn(step.along, step.expected));
    variables.set(step.into, constant(evaluate(step.expected)));
    if (step.kind === 'search') return [];
    const [x, y, z] = directionOf(step.along);
    return [{ tip: [tip.x, tip.y, tip.z], direction: [step.sign * x, step.sign * y, step.sign * z] }];
  });
}
