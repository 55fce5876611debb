import type {
  DescribeRoutinesResult,
  GenerateRoutineParams,
  GenerateRoutineResult,
  InputValue,
} from '../protocol/requests.ts';
import { errorToExpect } from '../report/errorToExpect.ts';
import { describe, listRoutines, routineNamed, routines, writeRoutine } from '../routines/registry.ts';
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
  const written = routineText(routine, place, params.form, params.values);
  if ('problems' in written) return { text: null, ...written, expectedErrors: [], betterWays: [] };
  const { profile, units } = place;
  const { errors, betterWays } = errorToExpect(routine, params.values, profile.profile, units);
  return { ...written, problems: [], expectedErrors: errors, betterWays };
}

export function routineText(
  routine: Routine,
  place: RoutinePlace,
  form: GenerateRoutineParams['form'],
  values: Values,
): { readonly text: string } | Pick<GenerateRoutineResult, 'problems'> {
  const [problem] = place.profile.problems;
  // Feeds and clearances of another probe than the one that hangs there are no defaults.
  if (problem) {
    const said = problem.message.replace(/\.$/, '');
    return {
      problems: [{ inputs: [], message: `The probe profile can't be used: ${said}. Mend it first.` }],
    };
  }
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
  if ('problems' in written) return written;
  const lines = inStyle(written.text.trimEnd().split('\n'), place.style, {
    indent: form === 'inline' ? place.indent : '',
    taken: usedLabels,
  });
  const text = lines.map((line) => `${line}\n`).join('');
  return { text };
}

function refused(message: string): GenerateRoutineResult {
  return { text: null, problems: [{ inputs: [], message }], expectedErrors: [], betterWays: [] };
}
