import type { Units } from '../report/quantities.ts';
import type { DialectName } from '../syntax/dialect.ts';
import { dialects } from '../syntax/dialects.ts';
import type { Source } from '../syntax/source.ts';
import type { FileProfile } from '../workspace/fileProfile.ts';
import type { Program } from '../workspace/program.ts';
import { lineEndingOf } from './allowHere.ts';
import { unitsAt } from './modesInForce.ts';
import { parameterName, shownParameter } from './parameterName.ts';
import { parametersOf } from './wordAt.ts';

/** Where a routine is to be written: what it has to fit in with. */
export interface RoutinePlace {
  readonly profile: FileProfile;
  readonly dialect: DialectName;
  readonly units: Units;
  readonly lineEnding: string;
  /** `#100`, `#<name>`: what the program uses already. */
  readonly usedParameters: ReadonlySet<string>;
  /** N and O numbers and O names of the program. */
  readonly usedLabels: ReadonlySet<number | string>;
}

/** In a program, at a line: its dialect, and the units in force there, else those of the profile. */
export function routinePlace(program: Program, line: number): RoutinePlace {
  const { source, profile } = program;
  const modes = program.notChecked === null ? program.analysis.stateAt(line)?.modes : undefined;
  return {
    profile,
    dialect: source.dialect.name,
    units: modes ? unitsAt(modes, profile.profile.units) : profile.profile.units,
    lineEnding: lineEndingOf(source),
    usedParameters: usedParameters(source),
    usedLabels: usedLabels(source),
  };
}

/** Outside of any program, as in a new document. */
export function emptyPlace(profile: FileProfile): RoutinePlace {
  return {
    profile,
    dialect: profile.profile.dialect ?? dialects.rs274ngc.name,
    units: profile.profile.units,
    lineEnding: '\n',
    usedParameters: new Set(),
    usedLabels: new Set(),
  };
}

function usedParameters(source: Source): Set<string> {
  const used = new Set<string>();
  for (const line of source.otherLines()) {
    if (!source.text.line(line).includes('#')) continue;
    for (const item of source.block(line).items) {
      for (const { parameter } of parametersOf(item)) {
        const name = parameterName(parameter);
        if (name !== null) used.add(shownParameter(name));
      }
    }
  }
  return used;
}

function usedLabels(source: Source): Set<number | string> {
  const used = new Set<number | string>();
  for (let line = 0; line < source.lineCount; line++) {
    if (!/[no]/i.test(source.text.line(line))) continue;
    const { lineNumber, items } = source.block(line);
    if (lineNumber && lineNumber.value !== null) used.add(lineNumber.value);
    for (const item of items) {
      if (item.kind === 'flow' && item.form === 'o-word' && item.label !== null) {
        used.add(/^\d+$/.test(item.label) ? Number(item.label) : item.label);
      }
      if (item.kind === 'word' && item.letter === 'O' && item.value.kind === 'number')
        used.add(item.value.value);
    }
  }
  return used;
}
