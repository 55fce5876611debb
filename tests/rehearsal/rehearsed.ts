import type { Setup } from '../../server/part/setup.ts';
import { type Profile, readProfile } from '../../server/profile/profile.ts';
import { readSetup } from '../../server/rehearsal/readSetup.ts';
import { type Rehearsal, type RehearseOptions, rehearse } from '../../server/rehearsal/rehearse.ts';
import type { DialectName } from '../../server/syntax/dialect.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { Source } from '../../server/syntax/source.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';

/** A probe of 4 mm that trips at first touch and latches at once, so that only geometry is left. */
export const idealProbe = {
  probe: {
    tipDiameter: 4,
    stylus: { stemDiameter: 2 },
    calibration: { effectiveDiameter: 4, expandedUncertainty: 0, feed: 60, harmonics: [] },
    repeatability: 0,
  },
  machine: { tripLatency: 0, reactionTime: 0.01, deceleration: 100 },
};

/** Its tip hangs at the gauge line, over a plate whose top is Z0. */
export const plate = {
  start: [0, 0, 20],
  part: [{ add: 'block', min: [-50, -50, -30], max: [50, 50, 0] }],
};

export function aSetup(setup: object): Setup {
  const read = readSetup(JSON.stringify(setup));
  if (read.setup === null) throw new Error(JSON.stringify(read.problems));
  return read.setup;
}

export function aProfile(profile: object): Profile {
  const read = readProfile(JSON.stringify(profile), { path: null, ruleIds: [] });
  if (read.profile === null) throw new Error(JSON.stringify(read.problems));
  return read.profile;
}

export function aSource(text: string, dialect: DialectName = 'rs274ngc'): Source {
  return Source.from(SourceText.from(text), dialects[dialect]);
}

export interface Given {
  readonly dialect?: DialectName;
  readonly profile?: object;
  readonly options?: RehearseOptions;
}

/** The one funnel: a program in a setup. */
export function rehearsed(program: string, setup: object, given: Given = {}): Rehearsal {
  const { dialect, profile = idealProbe, options = {} } = given;
  return rehearse(aSource(program, dialect), aSetup(setup), aProfile(profile), options);
}

/** Outcome of the undisturbed run. */
export function outcome(program: string, setup: object, given: Given = {}): string {
  return rehearsed(program, setup, { ...given, options: { faults: [] } }).undisturbed.outcome.name;
}

/** Outcomes of one fault in all its forms. */
export function outcomesOf(
  fault: Exclude<RehearseOptions['faults'], undefined>[number],
  program: string,
  setup: object,
  given: Given = {},
): string[] {
  const options = { faults: [fault] };
  return rehearsed(program, setup, { ...given, options }).faults.map((run) => run.outcome.name);
}
