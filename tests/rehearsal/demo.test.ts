import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { ruleIds } from '../../server/checks/registry.ts';
import { readProfile } from '../../server/profile/profile.ts';
import { readSetup } from '../../server/rehearsal/readSetup.ts';
import { rehearse } from '../../server/rehearsal/rehearse.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { Source } from '../../server/syntax/source.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';

const demo = (name: string) =>
  readFileSync(path.join(import.meta.dirname, '../../client/walkthrough/demo', name), 'utf8');

test('the bore that the demo shows as right passes its own rehearsal', () => {
  const { setup } = readSetup(demo('bore-centre.setup.json'));
  const { profile } = readProfile(demo('probewright.json'), { path: 'probewright.json', ruleIds });
  if (!setup || !profile) throw new Error('The demo’s own files can be read.');
  const source = Source.from(SourceText.from(demo('bore-centre.ngc')), dialects.rs274ngc);
  const { undisturbed, faults, verdict } = rehearse(source, setup, profile);
  expect(undisturbed.outcome.name).toBe('datum-right');
  const harmful = faults.filter(({ outcome }) =>
    ['collision', 'wrong-datum', 'endless'].includes(outcome.name),
  );
  expect(harmful.map(({ fault }) => fault.name)).toEqual(['probe-dead']);
  expect(verdict).toBe('pass');
});
