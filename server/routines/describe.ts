import type { Profile } from '../profile/profile.ts';
import { factsOf } from './plan.ts';
import { limitsOf } from './readInputs.ts';
import type { Choice, Input, InputValue, Result, Routine, Units } from './routine.ts';
import { unitOf } from './units.ts';

/** `generate --describe --format json` of `command-line.md`; lengths and feeds in the units asked for. */
export interface Description {
  readonly name: string;
  readonly title: string;
  readonly summary: string;
  readonly inputs: readonly DescribedInput[];
  readonly results: readonly Pick<Result, 'name' | 'title'>[];
}

export interface DescribedInput {
  readonly name: string;
  readonly title: string;
  readonly help: string;
  readonly type: Input['type'];
  /** As a person reads it, behind the number; null where there is none. */
  readonly unit: string | null;
  readonly default: InputValue | null;
  readonly least: number | null;
  readonly greatest: number | null;
  readonly choices: readonly Choice[] | null;
  readonly required: boolean;
}

/** What the routine asks, with defaults and limits for this probe and machine. */
export function describe(routine: Routine, units: Units, profile: Profile): Description {
  const facts = factsOf(profile);
  return {
    name: routine.name,
    title: routine.title,
    summary: routine.summary,
    inputs: routine.inputs.map((input) => ({
      name: input.name,
      title: input.title,
      help: input.help,
      type: input.type,
      unit: unitOf(input.type, units),
      ...limitsOf(input, facts, units),
      choices: input.choices ?? null,
      required: input.required,
    })),
    results: routine.results.map(({ name, title }) => ({ name, title })),
  };
}
