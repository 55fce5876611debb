import type { Units } from '../report/quantities.ts';
import type { DialectName } from '../syntax/dialect.ts';
import { dialects } from '../syntax/dialects.ts';
import type { Source } from '../syntax/source.ts';
import type { FileProfile } from '../workspace/fileProfile.ts';
import type { Program } from '../workspace/program.ts';
import { lineEndingOf } from './allowHere.ts';
import { type FileStyle, fileStyle, plainStyle } from './fileStyle.ts';
import { unitsAt } from './modesInForce.ts';
import { parameterName, shownParameter } from './parameterName.ts';
import { parametersOf } from './wordAt.ts';

/** Where a routine is to be written: what it has to fit in with. */
export interface RoutinePlace {
  readonly profile: FileProfile;
  readonly dialect: DialectName;
  readonly units: Units;
  readonly lineEnding: string;
  readonly style: FileStyle;
  /** Blanks before the lines there. */
  readonly indent: string;
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
    style: fileStyle(source),
    indent: indentAt(source, line),
    usedParameters: usedParameters(source),
    usedLabels: usedLabels(source),
  };
}

/** O-word programs are indented; where a line is blank, as the line above it. */
function indentAt(source: Source, line: number): string {
  if (!source.dialect.oWords || line < 0 || line >= source.lineCount) return '';
  const above = [line, line - 1].map((each) => (each < 0 ? '' : source.text.line(each)));
  return /^[ \t]*/.exec(above.find((text) => text.trim() !== '') ?? '')?.[0] ?? '';
}

/** Outside of any program, as in a new document. */
export function emptyPlace(profile: FileProfile): RoutinePlace {
  return {
    profile,
    dialect: profile.profile.dialect ?? dialects.rs274ngc.name,
    units: profile.profile.units,
    lineEnding: '\n',
    style: plainStyle,
    indent: '',
    usedParameters: new Set(),
    usedLabels: new Set(),
  };
}

/** Those of the lines that count. */
export function usedParameters(source: Source, counts: (line: number) => boolean = () => true): Set<string> {
  const used = new Set<string>();
  for (const line of source.otherLines()) {
    if (!counts(line) || !source.text.line(line).includes('#')) continue;
    for (const item of source.block(line).items) {
      for (const { parameter } of parametersOf(item)) {
        const name = parameterName(parameter);
        if (name !== null) used.add(shownParameter(name));
      }
    }
  }
  return used;
}

/** Those of the lines that count. */
export function usedLabels(
  source: Source,
  counts: (line: number) => boolean = () => true,
): Set<number | string> {
  const used = new Set<number | string>();
  for (let line = 0; line < source.lineCount; line++) {
    if (!counts(line) || !/[no]/i.test(source.text.line(line))) continue;
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
