import { describe, expect, test } from 'vitest';
import { analyse } from '../../server/analysis/analysis.ts';
import { check } from '../../server/checks/check.ts';
import { routines, writeRoutine } from '../../server/routines/registry.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { Source } from '../../server/syntax/source.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';
import { profiles } from './profiles.ts';
import { acceptedInputs, randomNumbers } from './randomInputs.ts';

const seed = Number(process.env.ROUTINE_SEED ?? 20250807);

const cases = routines.flatMap((routine) =>
  (['rs274ngc', 'macro'] as const).flatMap((dialect) =>
    (['inline', 'subroutine'] as const).flatMap((form) =>
      (['mm', 'inch'] as const).map((units) => ({ routine, name: routine.name, dialect, form, units })),
    ),
  ),
);

describe(`our own checks find nothing above information (seed ${seed})`, () => {
  test.each(cases)('$name, $dialect, $form, $units', ({ routine, dialect, form, units }) => {
    const random = randomNumbers(seed);
    const all = new Set<string>();
    for (const [profileName, profile] of Object.entries(profiles))
      for (const inputs of acceptedInputs(routine, profile, units, 20, random)) {
        for (const standAlone of [true]) {
          const written = writeRoutine(routine, inputs, { profile, dialect, form, units, standAlone });
          if (!('text' in written)) throw new Error(JSON.stringify(written.problems));
          const source = Source.from(SourceText.from(written.text), dialects[dialect]);
          const found = check(source, analyse(source, profile), profile).findings.filter(
            ({ severity }) => severity !== 'info',
          );
          const said = found.map(
            ({ rule, place, message }) => `${rule} ${source.text.line(place.line)}: ${message}`,
          );
          for (const s of said) all.add(profileName + ' ' + s);
        }
      }
    expect([...all]).toEqual([]);
  });
});
