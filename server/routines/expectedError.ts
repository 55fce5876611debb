import { type DerivedValue, derivedError, type ErrorBudget, type TouchTerm } from '../probe/derivedError.ts';
import { effectiveRadius } from '../probe/effectiveRadius.ts';
import type { Profile } from '../profile/profile.ts';
import { directionOf, sharesOf } from './along.ts';
import { byTipDiameter, constant, type Derivative, derive } from './derivative.ts';
import type { Expression } from './expression.ts';
import { type Measure, Motion } from './motion.ts';
import { inputVariables, planOf } from './plan.ts';
import type { InputProblem, Values } from './readInputs.ts';
import type { InputValue, Plan, Result, Routine, Units } from './routine.ts';
import { tipSource } from './tipDiameter.ts';

/** One result of a routine as the error model sees it. */
export interface ExpectedResult {
  readonly name: string;
  readonly title: string;
  readonly kind: Result['kind'];
  /** Touch terms, coefficients and diameter of `error-model.md` section 4; for angles the unit of q is the degree. */
  readonly value: DerivedValue;
  /** mm, of an angle degrees; null for forms and properties of the probe, whose errors the model does not state. */
  readonly error: ErrorBudget | null;
}

export type Expected =
  | { readonly results: readonly ExpectedResult[] }
  | { readonly problems: readonly InputProblem[] };

/**
 * What to expect of each result before the routine is written: coefficients by differentiating the motion's own
 * formulas at the nominal feature, so that they can't differ from what the program computes. Nonlinear results
 * (the corner of a turned part) are linearised there (JCGM 100:2008, 5.1.3).
 */
export function expectedErrors(
  routine: Routine,
  given: Readonly<Record<string, InputValue>>,
  profile: Profile,
  units: Units,
): Expected {
  const planned = planOf(routine, given, profile, units);
  if ('problems' in planned) return planned;
  const { plan, values } = planned;
  const { touches, variables } = follow(routine, plan, values);
  const results = routine.results.flatMap((result) => {
    const derivative = variables.get(result.name);
    return derivative === undefined ? [] : [expectedResult(result, derivative, touches, plan)];
  });
  return { results };
}

/**
 * What the error of a result stays under, in its unit. Where the model gives no bias, for touches along no axis, each one
 * may report its surface too far by as much as the effective radius differs from the one reckoned with in any direction.
 */
export function greatestError({ error, value }: ExpectedResult, { probe, pace }: Plan): number {
  if (error === null) return Infinity;
  if (error.expectedError !== null) return error.expectedError;
  const reckoned = (value.diameter ?? probe.tipDiameter) / 2;
  const directions = Array.from({ length: 36 }, (_, i) => i * 10);
  const off = directions.map((degrees) =>
    Math.abs(reckoned - effectiveRadius(probe, degrees, pace.measuring / 60, 'towards')),
  );
  const weight = value.terms.reduce((sum, { coefficient }) => sum + Math.abs(coefficient), 0);
  return error.expandedUncertainty + weight * Math.max(...off);
}

/** A touch, and how far the spindle was turned. */
type Taken = Measure & { readonly turn: number };

interface Followed {
  readonly touches: readonly Taken[];
  readonly variables: ReadonlyMap<string, Derivative>;
}

/** Runs the motion on the nominal feature: every touch meets its surface where it is expected. */
function follow(routine: Routine, plan: Plan, values: Values): Followed {
  const motion = new Motion(plan.pace);
  routine.motion(plan, motion);
  const variables = inputVariables(values);
  const around = { variables, tipDiameter: plan.probe.tipDiameter };
  const touches: Taken[] = [];
  let turn = 0;
  const evaluate = (expression: Expression) => derive(expression, around);
  for (const step of motion.steps) {
    if (step.kind === 'orient') turn = step.degrees;
    if (step.kind === 'set') variables.set(step.name, evaluate(step.value));
    if (step.kind === 'search') variables.set(step.into, constant(evaluate(step.expected).value));
    if (step.kind === 'measure') {
      const by = new Map([[touchKey(touches.length), 1]]);
      variables.set(step.into, fromBase(step, { value: evaluate(step.expected).value, by }, evaluate));
      touches.push({ ...step, turn });
    }
  }
  return { touches, variables };
}

/** A coordinate along a level line counts from the place of that line, which may rest on touches itself. */
function fromBase(
  { along }: Measure,
  { value, by }: Derivative,
  evaluate: (expression: Expression) => Derivative,
): Derivative {
  if (typeof along === 'string') return { value, by };
  const slopes = new Map(by);
  for (const { axis, share } of sharesOf(along))
    for (const [key, slope] of evaluate(along.base[axis]).by)
      slopes.set(key, (slopes.get(key) ?? 0) - share * slope);
  return { value, by: slopes };
}

/** The key of a touch in `Derivative.by`, counted from 0. */
function touchKey(index: number): string {
  return `touch ${index}`;
}

function expectedResult(
  { name, title, kind }: Result,
  derivative: Derivative,
  touches: readonly Taken[],
  plan: Plan,
): ExpectedResult {
  const terms = touches.flatMap((touch, index) => {
    const coefficient = derivative.by.get(touchKey(index)) ?? 0;
    // Directions are rounded to seven decimals: what is smaller than their error cancels.
    return Math.abs(coefficient) < 1e-6 ? [] : [termOf(touch, coefficient, plan)];
  });
  const value: DerivedValue = {
    terms,
    diameterCoefficient: derivative.by.get(byTipDiameter) ?? 0,
    diameter: tipSource(plan.profile, 'rs274ngc', plan.units).mm,
    size: kind === 'size' ? Math.abs(derivative.value) : null,
    spindlePhaseKnown: true,
  };
  return {
    name,
    title,
    kind,
    value,
    error: ['coordinate', 'size', 'angle'].includes(kind) ? derivedError(plan.probe, value) : null,
  };
}

function termOf({ along, sign, turn }: Taken, coefficient: number, plan: Plan): TouchTerm {
  const [x, y, z] = directionOf(along);
  return {
    coefficient,
    sign,
    axis: typeof along === 'string' ? along : 'x',
    direction: [sign * x, sign * y, sign * z],
    speed: plan.pace.measuring / 60,
    motion: 'towards',
    from: 'latched',
    turn,
  };
}
