import { describe, expect, test } from 'vitest';
import { analyse } from '../../server/analysis/analysis.ts';
import { check } from '../../server/checks/check.ts';
import { routines, writeRoutine } from '../../server/routines/registry.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { Source } from '../../server/syntax/source.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';
import { everyCase } from './everyCase.ts';
import { inputsOverProfiles, seed } from './randomInputs.ts';

describe(`our own checks find nothing above information (seed ${seed})`, () => {
  test.each(everyCase(routines))('$name, $dialect, $form, $units', ({ routine, dialect, form, units }) => {
    for (const [index, { profile, inputs, said }] of inputsOverProfiles(routine, units, 20).entries()) {
      const standAlone = index % 2 === 0;
      const written = writeRoutine(routine, inputs, { profile, dialect, form, units, standAlone });
      if (!('text' in written)) throw new Error(JSON.stringify(written.problems));
      const source = Source.from(SourceText.from(written.text), dialects[dialect]);
      const { findings, suppressed } = check(source, analyse(source, profile), profile);
      const found = findings
        .filter(({ severity }) => severity !== 'info')
        .map(({ rule, place, message }) => `${rule} at ${source.text.line(place.line)}: ${message}`);
      expect([found, suppressed], said).toEqual([[], 0]);
    }
  });
});
