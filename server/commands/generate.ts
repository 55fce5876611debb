import { resolve } from 'node:path';
import { closestName } from '../profile/closestName.ts';
import type { Profile } from '../profile/profile.ts';
import type { Proposal } from '../rehearsal/proposeSetup.ts';
import { errorToExpect } from '../report/errorToExpect.ts';
import { allowedText, routineDescriptionText, routineListText } from '../report/routineText.ts';
import { setupText } from '../report/setupText.ts';
import { styleFor } from '../report/style.ts';
import type { InputProblem } from '../routines/readInputs.ts';
import {
  describe,
  documentation,
  listRoutines,
  routineNamed,
  routines,
  writeRoutine,
} from '../routines/registry.ts';
import type { Routine, Units } from '../routines/routine.ts';
import type { DialectName } from '../syntax/dialect.ts';
import { dialects } from '../syntax/dialects.ts';
import { Source } from '../syntax/source.ts';
import { SourceText } from '../syntax/sourceText.ts';
import { profiles } from './profileOf.ts';
import { refuse } from './refuse.ts';
import { routineSetup } from './routineSetup.ts';
import type { ExitStatus, Terminal } from './terminal.ts';
import { writeFile } from './writeFile.ts';

export interface GenerateOptions {
  /** `name=value` each. */
  readonly set: readonly string[];
  /** null: the profile's. */
  readonly dialect: DialectName | null;
  readonly form: 'inline' | 'subroutine';
  /** null: the profile's. */
  readonly units: Units | null;
  readonly output: string | null;
  /** Where the setup for the routine's rehearsal goes; null: nowhere. */
  readonly setupOut: string | null;
  readonly list: boolean;
  readonly describe: boolean;
  readonly format: 'text' | 'json';
  readonly profile: string | null;
}

/** `probewright generate FEATURE`: a routine as a complete program; or which there are, or what one asks for. */
export function generate(feature: string | null, options: GenerateOptions, terminal: Terminal): ExitStatus {
  if (options.setupOut !== null && (options.list || options.describe))
    return refuse(terminal, ['--setup-out goes with a routine that is written.']);
  if (options.setupOut !== null && options.setupOut === options.output)
    return refuse(terminal, ['--setup-out and -o name the same file.']);
  if (options.list) return give(listing(options, terminal), options, terminal);
  if (feature === null)
    return refuse(terminal, [
      `name what to probe: ${routines.map(({ name }) => name).join(', ')}; or --list.`,
    ]);
  const routine = routineNamed(feature);
  if (routine === null) return refuse(terminal, [unknownFeature(feature)]);
  const target = options.output === null ? null : resolve(terminal.cwd, options.output);
  const found = profiles(options.profile, terminal)(target);
  if ('faults' in found) return refuse(terminal, found.faults);
  const units = options.units ?? found.profile.units;
  if (options.describe) {
    const given = settings(options.set);
    if ('faults' in given) return refuse(terminal, given.faults);
    return give(
      description(routine, units, found.profile, given.values, options, terminal),
      options,
      terminal,
    );
  }
  if (options.format === 'json')
    return refuse(terminal, [
      '--format json goes with --list and --describe; a routine is always program text.',
    ]);
  return write(routine, units, found.profile, options, terminal);
}

function listing({ format }: GenerateOptions, terminal: Terminal): string {
  const listed = listRoutines();
  return format === 'json'
    ? json(listed)
    : routineListText(listed, styleFor(terminal.colour), terminal.width);
}

function description(
  routine: Routine,
  units: Units,
  profile: Profile,
  values: Readonly<Record<string, string>>,
  { format }: GenerateOptions,
  terminal: Terminal,
): string {
  if (format === 'json') return json(describe(routine, units, profile));
  const expected = errorToExpect(routine, values, profile, units);
  const documented = documentation(routine, units, profile, values);
  return routineDescriptionText(documented, expected, styleFor(terminal.colour), terminal.width);
}

function json(value: object): string {
  return `${JSON.stringify(value, null, 2)}\n`;
}

function unknownFeature(feature: string): string {
  const names = routines.map(({ name }) => name);
  const near = closestName(feature, names);
  return `there is no routine "${feature}". ${near === null ? '' : `Did you mean ${near}? `}There are ${names.join(', ')}.`;
}

function write(
  routine: Routine,
  units: Units,
  profile: Profile,
  options: GenerateOptions,
  terminal: Terminal,
): ExitStatus {
  const given = settings(options.set);
  if ('faults' in given) return refuse(terminal, given.faults);
  const dialect = options.dialect ?? profile.dialect ?? 'rs274ngc';
  const written = writeRoutine(routine, given.values, {
    profile,
    dialect,
    form: options.form,
    units,
    standAlone: true,
  });
  if ('text' in written) {
    const source = Source.from(SourceText.from(written.text), dialects[dialect]);
    const { parameters } = written;
    const rehearsed = { routine, inputs: given.values, profile, dialect, units, parameters };
    const propose = () => routineSetup(source, rehearsed);
    const setup = giveSetup(propose, options, terminal);
    return setup === 0 ? give(written.text, options, terminal) : setup;
  }
  return refuse(
    terminal,
    written.problems.map((problem) => problemText(problem, routine, units, profile)),
  );
}

/** The setup that the routine brings along for its rehearsal. */
function giveSetup(
  propose: () => Proposal,
  { output, setupOut }: GenerateOptions,
  terminal: Terminal,
): ExitStatus {
  if (setupOut === null) return 0;
  return writeFile(setupOut, setupText(propose(), output ?? 'the routine'), terminal);
}

/** The values that the person set, by name. */
function settings(
  set: readonly string[],
): { readonly values: Readonly<Record<string, string>> } | { readonly faults: readonly string[] } {
  const values = new Map<string, string>();
  const faults: string[] = [];
  for (const each of set) {
    const [, name = '', value = ''] = /^([^=]+)=(.*)$/s.exec(each) ?? [];
    if (name === '') faults.push(`--set ${each}: write name=value, such as diameter=25.`);
    else if (values.has(name)) faults.push(`--set ${name}: set twice.`);
    else values.set(name, value);
  }
  return faults.length > 0 ? { faults } : { values: Object.fromEntries(values) };
}

function problemText(
  { inputs, message }: InputProblem,
  routine: Routine,
  units: Units,
  profile: Profile,
): string {
  if (inputs.length === 0) return message;
  const described = describe(routine, units, profile).inputs;
  const allowed = described
    .filter(({ name }) => inputs.includes(name))
    .map((input) => ` ${input.name} takes ${allowedText(input)}.`);
  return `--set ${inputs.join(', ')}: ${message}${allowed.join('')}`;
}

function give(text: string, { output }: GenerateOptions, terminal: Terminal): ExitStatus {
  if (output === null) {
    terminal.out(text);
    return 0;
  }
  return writeFile(output, text, terminal);
}
