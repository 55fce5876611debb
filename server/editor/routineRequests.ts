import type {
  DescribeRoutinesResult,
  GenerateRoutineParams,
  GenerateRoutineResult,
  InputValue,
} from '../protocol/requests.ts';
import { quantities } from '../report/quantities.ts';
import {
  describe,
  expectedErrors,
  listRoutines,
  routineNamed,
  routines,
  writeRoutine,
} from '../routines/registry.ts';
import type { Routine } from '../routines/routine.ts';
import { pathOf } from '../workspace/fileProfile.ts';
import { inStyle } from './fileStyle.ts';
import type { RoutinePlace } from './routinePlace.ts';

type Values = Readonly<Record<string, InputValue>>;

/** What can be written at a place, with defaults and limits for its probe. */
export function describeRoutines({ profile, dialect, units }: RoutinePlace): DescribeRoutinesResult {
  const forms = new Map(listRoutines().map((each) => [each.name, each.forms]));
  return {
    dialect,
    units,
    profile: profile.uri === null ? null : pathOf(profile.uri),
    routines: routines.map((routine) => {
      const { name, title, summary, inputs } = describe(routine, units, profile.profile);
      return { name, title, summary, inputs, forms: forms.get(name) ?? [] };
    }),
  };
}

/** A routine's text for this place with what to expect of it, or what stands in its way. */
export function generateRoutine(place: RoutinePlace, params: GenerateRoutineParams): GenerateRoutineResult {
  const routine = routineNamed(params.routine);
  if (!routine) return refused(`There is no routine ${params.routine}.`);
  return routineText(routine, place, params.form, params.values);
}

export function routineText(
  routine: Routine,
  place: RoutinePlace,
  form: GenerateRoutineParams['form'],
  values: Values,
): GenerateRoutineResult {
  const [problem] = place.profile.problems;
  // Feeds and clearances of another probe than the one that hangs there are no defaults.
  if (problem)
    return refused(`The probe profile can't be used: ${problem.message.replace(/\.$/, '')}. Mend it first.`);
  const { dialect, units, usedParameters, usedLabels } = place;
  const profile = place.profile.profile;
  const written = writeRoutine(routine, values, {
    profile,
    dialect,
    form,
    units,
    usedParameters,
    usedLabels,
  });
  if ('problems' in written) return { text: null, problems: written.problems, expectedErrors: [] };
  const lines = inStyle(written.text.trimEnd().split('\n'), place.style, {
    indent: form === 'inline' ? place.indent : '',
  });
  const text = lines.map((line) => `${line}\n`).join('');
  return { text, problems: [], expectedErrors: expectations(routine, values, place) };
}

function expectations(routine: Routine, values: Values, { profile, units }: RoutinePlace) {
  const expected = expectedErrors(routine, values, profile.profile, units);
  if ('problems' in expected) return [];
  const show = quantities(units);
  return expected.results.flatMap(({ title, error }) => {
    if (error === null) return [];
    const bias = error.bias === null ? 'bias not known' : `bias ${show.signedError(error.bias)}`;
    const predicted = error.calibrated ? '' : ', predicted, not calibrated';
    return [{ title, text: `±${show.error(error.expandedUncertainty)}, ${bias}${predicted}` }];
  });
}

function refused(message: string): GenerateRoutineResult {
  return { text: null, problems: [{ inputs: [], message }], expectedErrors: [] };
}
