import { describe, expect, test } from 'vitest';
import { routines } from '../../server/routines/registry.ts';
import { rehearsedAsBrought } from './setupOut.ts';

const choices = routines.flatMap(({ name }) =>
  ['rs274ngc', 'macro'].flatMap((dialect) =>
    ['inline', 'subroutine'].flatMap((form) =>
      ['mm', 'inch'].map((units) => [name, '--dialect', dialect, '--form', form, '--units', units]),
    ),
  ),
);

const settings = routines.flatMap(({ name, inputs }) =>
  inputs.flatMap((input) =>
    (input.choices ?? []).map(({ value }) => [name, '--set', `${input.name}=${value}`]),
  ),
);

/** One touch a face can not see that the part stands turned: its help says so, and so must its rehearsal. */
const honest = ['outside-corner', 'inside-corner'].map((corner) => `${corner},--set,touches=one`);

test.each(settings)('with every other choice too: %s %s %s', async (...argv) => {
  const wanted = honest.includes(argv.join()) ? 'fail' : 'pass';
  for (const dialect of ['rs274ngc', 'macro']) {
    const { verdict, outcome, story, best } = await rehearsedAsBrought([...argv, '--dialect', dialect]);
    expect({ verdict, outcome, story }).toMatchObject({ verdict: wanted, outcome: best });
  }
});

describe('with every input at its default a routine and its setup pass', () => {
  test.each(choices)('%s %s %s %s %s %s %s', async (...argv) => {
    const { verdict, outcome, best, worstErrors } = await rehearsedAsBrought(argv);
    expect({ verdict, outcome }).toEqual({ verdict: 'pass', outcome: best });
    expect(worstErrors).toBeLessThan(0.03);
  });
});
