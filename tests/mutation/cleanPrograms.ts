import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { ruleIds } from '../../server/checks/registry.ts';
import { builtInProfile, type Profile, readProfile } from '../../server/profile/profile.ts';
import { routines } from '../../server/routines/registry.ts';
import { writeRoutine } from '../../server/routines/writeRoutine.ts';
import type { DialectName } from '../../server/syntax/dialect.ts';
import demo from '../programs/demo.json' with { type: 'json' };

/** A program that is right as it stands. */
export interface CleanProgram {
  readonly name: string;
  /** The routine that wrote it; null: a sample. */
  readonly routine: string | null;
  readonly dialect: DialectName;
  readonly text: string;
  readonly profile: Profile;
  /** Names of its results, with their #: `#<mean_diameter>`, `#104`. */
  readonly results: readonly string[];
}

const root = join(import.meta.dirname, '../..');

/** Every sample with touches that is right, the demo's and the habits', and every routine that we write. */
export function cleanPrograms(): CleanProgram[] {
  return [...demos(), ...habits(), ...generated()];
}

function demos(): CleanProgram[] {
  const folder = join(root, 'client/walkthrough/demo');
  const read = (name: string) => readFileSync(join(folder, name), 'utf8');
  const { profile } = readProfile(read('probewright.json'), { path: 'probewright.json', ruleIds });
  if (!profile) throw new Error('The demo profile has a fault.');
  const right = Object.entries<readonly object[]>(demo).filter(([, findings]) => findings.length === 0);
  return right.map(([name]) => sample(`demo/${name}`, read(name), profile));
}

function habits(): CleanProgram[] {
  const folder = join(root, 'tests/programs/habits');
  const names = readdirSync(folder);
  return names.map((name) =>
    sample(`habits/${name}`, readFileSync(join(folder, name), 'utf8'), builtInProfile),
  );
}

function sample(name: string, text: string, profile: Profile): CleanProgram {
  return {
    name,
    routine: null,
    text,
    profile,
    dialect: name.endsWith('.ngc') ? 'rs274ngc' : 'macro',
    results: [],
  };
}

/** With a calibrated probe, so that the actual and the effective diameter differ. */
function generated(): CleanProgram[] {
  const profile = profileForRoutines();
  return routines.flatMap((routine) =>
    (['rs274ngc', 'macro'] as const).flatMap((dialect) =>
      (['inline', 'subroutine'] as const).map((form): CleanProgram => {
        const written = writeRoutine(routine, {}, { profile, dialect, form, units: 'mm', standAlone: true });
        if (!('text' in written)) throw new Error(JSON.stringify(written.problems));
        const comments = written.text.replace(/\)\n\(/g, ' ');
        const results = routine.results.flatMap(({ title }) => {
          const found = new RegExp(`#(?:<[^>]+>|\\d+)(?= ${title})`, 'i').exec(comments);
          return found ? [found[0].toLowerCase()] : [];
        });
        return {
          name: `${routine.name}, ${dialect}, ${form}`,
          routine: routine.name,
          text: written.text,
          profile,
          dialect,
          results,
        };
      }),
    ),
  );
}

function profileForRoutines(): Profile {
  const text = JSON.stringify({
    probe: {
      tipDiameter: 6,
      stylus: { length: 60, stemDiameter: 2 },
      overtravel: { lateral: 8, axial: 4 },
      repeatability: 0.001,
      calibration: { date: '2025-03-31', effectiveDiameter: 5.9784, expandedUncertainty: 0.0016, feed: 50 },
    },
    machine: { deceleration: 400, reactionTime: 0.004 },
    placementUncertainty: 2,
  });
  const { profile } = readProfile(text, { path: 'probewright.json', ruleIds });
  if (!profile) throw new Error('The profile has a fault.');
  return profile;
}
