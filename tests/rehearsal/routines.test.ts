import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { builtInProfile } from '../../server/profile/profile.ts';
import { readSetup } from '../../server/rehearsal/readSetup.ts';
import { rehearse } from '../../server/rehearsal/rehearse.ts';
import { routineNamed } from '../../server/routines/registry.ts';
import { writeRoutine } from '../../server/routines/writeRoutine.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { Source } from '../../server/syntax/source.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';

const housing = readFileSync(
  path.join(import.meta.dirname, '../../client/walkthrough/demo/bore-centre.setup.json'),
  'utf8',
);
const cases = (['rs274ngc', 'macro'] as const).flatMap((dialect) =>
  (['inline', 'subroutine'] as const).map((form) => [dialect, form] as const),
);

describe('a generated bore on the pump housing', () => {
  test.each(cases)('%s, %s: meets the centre, and no fault but a dead probe does harm', (dialect, form) => {
    const { setup } = readSetup(housing);
    const bore = routineNamed('bore');
    if (!setup || !bore) throw new Error('The setup and the routine are part of the project.');
    const inputs = { diameter: 62, depth: 45 };
    const written = writeRoutine(bore, inputs, {
      profile: builtInProfile,
      dialect,
      units: 'mm',
      form,
      standAlone: true,
    });
    if (!('text' in written)) throw new Error('The routine was not written.');
    const source = Source.from(SourceText.from(written.text), dialects[dialect]);
    const { undisturbed, faults, verdict } = rehearse(source, setup, builtInProfile);
    expect(undisturbed.outcome.name).toBe('datum-right');
    for (const error of undisturbed.outcome.errors.values()) expect(Math.abs(error)).toBeLessThan(0.01);
    expect(faults.length).toBeGreaterThan(40);
    const harmful = faults.filter(({ outcome }) =>
      ['collision', 'wrong-datum', 'endless'].includes(outcome.name),
    );
    expect(harmful.map(({ fault }) => fault.name)).toEqual(['probe-dead']);
    expect(verdict).toBe('pass');
  });
});
