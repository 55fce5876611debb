import { probeOf } from '../profile/probeOf.ts';
import type { Profile } from '../profile/profile.ts';
import { constant, type Derivative, derive } from './derivative.ts';
import { length, variable } from './expression.ts';
import { paceOf, paceProblem } from './pace.ts';
import { type InputProblem, readInputs, type Values } from './readInputs.ts';
import type { Condition, Facts, InputValue, Plan, Routine, Units } from './routine.ts';
import { sayLength } from './units.ts';

export type Planned =
  | { readonly plan: Plan; readonly values: Values }
  | { readonly problems: readonly InputProblem[] };

export function factsOf(profile: Profile): Facts {
  const probe = probeOf(profile);
  return { profile, probe, pace: paceOf(profile, probe) };
}

/** A routine for these inputs, or everything that is wrong with them. */
export function planOf(
  routine: Routine,
  given: Readonly<Record<string, InputValue>>,
  profile: Profile,
  units: Units,
): Planned {
  const usual = factsOf(profile);
  const { values, problems } = readInputs(routine, given, usual, units);
  if (problems.length > 0) return { problems };
  const agreement = values.get('agreement');
  const pace = paceOf(profile, usual.probe, typeof agreement === 'number' ? agreement : undefined);
  const tooFast = paceProblem(profile, pace);
  if (tooFast !== null) return { problems: [{ inputs: [], message: tooFast }] };
  const plan = makePlan(routine, { ...usual, pace }, values, units);
  const broken = routine.conditions(plan).filter((condition) => !holds(condition, values));
  if (broken.length > 0) return { problems: broken.map(({ inputs, message }) => ({ inputs, message })) };
  return { plan, values };
}

/** The inputs as variables of the motion, for evaluating expressions over them. */
export function inputVariables(values: Values): Map<string, Derivative> {
  const variables = new Map<string, Derivative>();
  for (const [name, value] of values) if (typeof value === 'number') variables.set(name, constant(value));
  return variables;
}

function makePlan(routine: Routine, facts: Facts, values: Values, units: Units): Plan {
  const amount = (name: string) => {
    const value = values.get(name);
    if (typeof value !== 'number') throw new Error(`${routine.name} has no number ${name}`);
    return value;
  };
  return {
    ...facts,
    units,
    tipRadius: facts.probe.tipDiameter / 2,
    amount,
    input: (name) =>
      routine.inputs.some((input) => input.name === name && input.argument)
        ? variable(name)
        : length(amount(name)),
    choice: (name) => String(values.get(name)),
    workOffset: String(values.get('workOffset') ?? 'active'),
    say: (mm) => sayLength(mm, units),
  };
}

function holds({ left, right }: Condition, values: Values): boolean {
  const around = { variables: inputVariables(values), tipDiameter: 0 };
  return derive(left, around).value >= derive(right, around).value - 1e-6;
}
