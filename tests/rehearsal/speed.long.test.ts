import { expect, test } from 'vitest';
import { builtInProfile } from '../../server/profile/profile.ts';
import { proposeSetup } from '../../server/rehearsal/proposeSetup.ts';
import { rehearse } from '../../server/rehearsal/rehearse.ts';
import { routineNamed, writeRoutine } from '../../server/routines/registry.ts';
import { aSource } from './rehearsed.ts';

function generatedBore() {
  const bore = routineNamed('bore');
  const options = { profile: builtInProfile, dialect: 'rs274ngc', form: 'inline', units: 'mm' } as const;
  const written = bore && writeRoutine(bore, {}, { ...options, standAlone: true });
  const source = aSource(written && 'text' in written ? written.text : '');
  const proposal = proposeSetup(source, builtInProfile);
  if ('problem' in proposal) throw new Error(proposal.problem);
  return { source, setup: proposal.setup };
}

/** Milliseconds of processor time, which other work on the machine does not change much. */
function spent(work: () => void): number {
  const before = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

test('once warm, the whole matrix of a bore takes at most 50 ms', () => {
  const { source, setup } = generatedBore();
  const once = () => rehearse(source, setup, builtInProfile);
  expect(once().faults.length).toBeGreaterThanOrEqual(40);
  const times = Array.from({ length: 20 }, () => spent(once));
  expect(Math.min(...times)).toBeLessThan(50);
});
