import { expect } from 'vitest';
import { routineSetup } from '../../server/commands/routineSetup.ts';
import type { FaultName } from '../../server/rehearsal/faults.ts';
import { type Rehearsal, type RehearseOptions, rehearse } from '../../server/rehearsal/rehearse.ts';
import { greatestError } from '../../server/routines/expectedError.ts';
import { planOf } from '../../server/routines/plan.ts';
import { expectedErrors, writeRoutine } from '../../server/routines/registry.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { Source } from '../../server/syntax/source.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';
import type { Case } from './everyCase.ts';
import { type Inputs, inputsOverProfiles, type Sample } from './randomInputs.ts';

/** What the rounding of the setup and of the printed decimals may come to, mm or degrees. */
const rounding = 0.002;

/** Faults that one sample in six is rehearsed with, where not every one is. */
const shares: readonly (readonly FaultName[])[] = [
  ['part-absent', 'part-shifted', 'part-turned'],
  ['start-shifted', 'feed-doubled'],
  ['wrong-tool', 'probe-dead'],
  ['false-trip'],
  ['probe-tripped'],
  ['probe-stuck'],
];

/**
 * In the setup that the routine brings along the undisturbed run meets what is true within the predicted error, and the
 * verdict over every fault is pass.
 */
export function expectRehearsal(each: Case, count: number, faults: 'all' | 'sampled' = 'all'): void {
  for (const units of ['mm', 'inch'] as const)
    for (const [index, sample] of inputsOverProfiles(each.routine, units, count).entries()) {
      if ((index % 2 === 0) !== (units === 'mm')) continue;
      const tried = faults === 'all' ? undefined : shares[(index >> 1) % shares.length];
      rehearseOne({ ...each, units }, sample, tried === undefined ? {} : { faults: tried });
    }
}

function rehearseOne(each: Case, { profile, inputs, said }: Sample, options: RehearseOptions): void {
  const { routine, dialect, form, units } = each;
  const written = writeRoutine(routine, inputs, { profile, dialect, form, units, standAlone: true });
  if (!('text' in written)) throw new Error(JSON.stringify(written.problems));
  const source = Source.from(SourceText.from(written.text), dialects[dialect]);
  const { parameters } = written;
  const { setup } = routineSetup(source, { routine, inputs, profile, dialect, units, parameters });
  const rehearsal = rehearse(source, setup, profile, options);
  const { outcome, story } = rehearsal.undisturbed;
  // A limit tighter than what the probe can keep stops the routine: that is what it is for.
  const limit = routine.name === 'calibration-check' ? Number(inputs.limit ?? Infinity) : Infinity;
  if (outcome.name === 'message-stop' && limit < 0.05) return;
  const wanted = setup.expect.size > 0 ? 'datum-right' : 'completed';
  expect(outcome.name, `${said}: ${story}`).toBe(wanted);
  const errors = expectedErrors(routine, inputs, profile, units);
  const planned = planOf(routine, inputs, profile, units);
  if ('problems' in errors || 'problems' in planned) throw new Error(said);
  // Nobody turns the spindle of the rehearsal by hand.
  const turnsByHand = /by hand/i.test(written.text);
  const datums = [...outcome.errors].filter(([key]) => key.startsWith('G')).map(([, met]) => met);
  for (const each of errors.results) {
    const { name, kind, error } = each;
    const met = kind === 'coordinate' ? datums.shift() : outcome.errors.get(parameters.get(name) ?? '');
    if (met === undefined || error === null || turnsByHand) continue;
    const unit = kind === 'angle' && units === 'inch' ? 25.4 : 1;
    const most = greatestError(each, planned.plan);
    expect(Math.abs(met / unit), `${name}, ${said}`).toBeLessThan(most + rounding);
  }
  expect(datums, said).toEqual([]);
  expect(harm(rehearsal, each, inputs), said).toEqual([]);
}

/** The faults that do harm, but for what no program can survive and what the routine's page says it does not bear. */
function harm({ faults, verdict }: Rehearsal, { routine }: Case, inputs: Inputs): readonly string[] {
  if (verdict === 'pass') return [];
  const harmful = faults.filter(({ outcome: { name } }) =>
    ['collision', 'wrong-datum', 'endless'].includes(name),
  );
  const isCorner = routine.name.endsWith('-corner') && inputs.touches === 'one';
  return harmful
    .filter(({ fault }) => fault.name !== 'probe-dead')
    .filter(({ fault }) => !(isCorner && fault.name === 'part-turned'))
    .map(({ fault, story }) => `${fault.name} ${fault.detail} ${fault.touch ?? ''}: ${story}`);
}
