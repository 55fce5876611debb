import type { Profile } from '../../server/profile/profile.ts';
import { planOf } from '../../server/routines/plan.ts';
import { describe } from '../../server/routines/registry.ts';
import type { InputValue, Routine, Units } from '../../server/routines/routine.ts';
import { profiles } from './profiles.ts';

/** ROUTINE_SEED tries another; the seed stands in the name of the tests that use it. */
export const seed = Number(process.env.ROUTINE_SEED ?? 20250807);

export type Inputs = Readonly<Record<string, InputValue>>;

/** Numbers in [0, 1) that one seed makes the same for ever (a linear congruential generator, Numerical Recipes' constants, from memory). */
export function randomNumbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/**
 * Inputs that the routine accepts: every input at its default, at its least and at its greatest, every choice, and
 * random ones until there are `count`. The inputs beside a fixed one are random where the defaults don't go with it.
 */
export function acceptedInputs(
  routine: Routine,
  profile: Profile,
  units: Units,
  count: number,
  random: () => number,
): Inputs[] {
  const { inputs } = describe(routine, units, profile);
  const found: Inputs[] = [{}];
  const accepts = (values: Inputs) => 'plan' in planOf(routine, values, profile, units);
  const drawn = (width = units === 'inch' ? 4 : 100): Record<string, InputValue> =>
    Object.fromEntries(
      inputs.map((input) => {
        if (input.choices !== null)
          return [input.name, input.choices[Math.floor(random() * input.choices.length)]?.value ?? ''];
        const least = input.least ?? -width;
        const greatest = Math.min(input.greatest ?? width, least + width);
        // A third of them at a limit: some limits go with each other alone.
        const share = Math.min(1, Math.max(0, 1.5 * random() - 0.25));
        const value = Number((least + share * (greatest - least)).toFixed(input.type === 'count' ? 0 : 4));
        return [input.name, value];
      }),
    );
  const withFixed = (fixed: Inputs) => {
    if (accepts(fixed)) return found.push(fixed);
    for (let attempt = 0; attempt < 2000; attempt++) {
      // Some limits go with large values alone.
      const values = { ...(attempt < 1000 ? drawn() : drawn(units === 'inch' ? 16 : 400)), ...fixed };
      if (accepts(values)) return found.push(values);
    }
    throw new Error(`${routine.name} accepts nothing beside ${JSON.stringify(fixed)}`);
  };
  for (const input of inputs) {
    for (const choice of input.choices ?? []) withFixed({ [input.name]: choice.value });
    if (input.least !== null) withFixed({ [input.name]: input.least });
    if (input.greatest !== null) withFixed({ [input.name]: input.greatest });
  }
  while (found.length < count) withFixed({ [inputs[0]?.name ?? '']: drawn()[inputs[0]?.name ?? ''] ?? '' });
  return found;
}

export interface Sample {
  readonly profile: Profile;
  readonly inputs: Inputs;
  readonly random: () => number;
  /** Profile and inputs in words, for a failure. */
  readonly said: string;
}

/** At least `count` samples, all limits among them, shared out over the profiles. */
export function inputsOverProfiles(routine: Routine, units: Units, count: number): Sample[] {
  const random = randomNumbers(seed);
  const all = Object.entries(profiles);
  return all.flatMap(([name, profile], index) =>
    acceptedInputs(routine, profile, units, count, random)
      .filter((_, sample) => sample % all.length === index)
      .map((inputs) => ({ profile, inputs, random, said: `${name} ${JSON.stringify(inputs)}` })),
  );
}
