import { readFileSync } from 'node:fs';
import path from 'node:path';
import { ruleIds } from '../../server/checks/registry.ts';
import { builtInProfile, type Profile, readProfile } from '../../server/profile/profile.ts';
import { monteCarlo } from '../../server/rehearsal/monteCarlo.ts';
import { proposeSetup } from '../../server/rehearsal/proposeSetup.ts';
import { readSetup } from '../../server/rehearsal/readSetup.ts';
import { rehearse } from '../../server/rehearsal/rehearse.ts';
import { routineNamed, writeRoutine } from '../../server/routines/registry.ts';
import { aSource } from './rehearsed.ts';

/** Processor time of a rehearsal, ms: other work on the machine changes that less than the time on the clock. */
export interface Pace {
  readonly touches: number;
  readonly faults: number;
  /** The whole matrix, once warm: the least of many. */
  readonly matrix: number;
  /** 10,000 runs with chance: five times the least of five shares. */
  readonly tenThousand: number;
}

// The program of a process of its own: vitest would run the sources as it loads them, at half their pace.
const [what = '', folder = ''] = process.argv.slice(2);
const given = what === 'demo' ? demoBore(folder) : generatedBore();
process.stdout.write(JSON.stringify(paceOf(given)));

interface Rehearsed {
  readonly source: ReturnType<typeof aSource>;
  readonly setup: Parameters<typeof rehearse>[1];
  readonly profile: Profile;
}

function paceOf({ source, setup, profile }: Rehearsed): Pace {
  const whole = () => rehearse(source, setup, profile);
  const { undisturbed, faults } = whole();
  const share = () => monteCarlo(source, setup, profile, { runs: 2000, seed: 1 });
  return {
    touches: undisturbed.record.touches.length,
    faults: faults.length,
    matrix: least(40, whole),
    tenThousand: 5 * least(5, share),
  };
}

function least(times: number, work: () => void): number {
  return Math.min(...Array.from({ length: times }, () => spent(work)));
}

function spent(work: () => void): number {
  const before = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

function demoBore(folder: string): Rehearsed {
  const file = (name: string) => readFileSync(path.join(folder, name), 'utf8');
  const { setup } = readSetup(file('bore-centre.setup.json'));
  const { profile } = readProfile(file('probewright.json'), { path: null, ruleIds });
  if (!setup || !profile) throw new Error('The demo’s own files can be read.');
  return { source: aSource(file('bore-centre.ngc')), setup, profile };
}

function generatedBore(): Rehearsed {
  const bore = routineNamed('bore');
  const options = { dialect: 'rs274ngc', form: 'inline', units: 'mm', standAlone: true } as const;
  const written = bore && writeRoutine(bore, {}, { ...options, profile: builtInProfile });
  const source = aSource(written && 'text' in written ? written.text : '');
  const proposal = proposeSetup(source, builtInProfile);
  if ('problem' in proposal) throw new Error(proposal.problem);
  return { source, setup: proposal.setup, profile: builtInProfile };
}
