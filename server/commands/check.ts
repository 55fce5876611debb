import { resolve } from 'node:path';
import { rules } from '../checks/registry.ts';
import { checkGithub } from '../report/checkGithub.ts';
import { checkJson } from '../report/checkJson.ts';
import { checkJunit } from '../report/checkJunit.ts';
import type { CheckedProgram, CheckHeader, CheckReport } from '../report/checkReport.ts';
import { checkSarif } from '../report/checkSarif.ts';
import { checkText } from '../report/checkText.ts';
import { counted } from '../report/counted.ts';
import { styleFor } from '../report/style.ts';
import type { FileProfile } from '../workspace/fileProfile.ts';
import { Baseline, NewBaseline } from './baseline.ts';
import { callsOf } from './callsOf.ts';
import { type Calls, type Checked, checkProgram, fixProgram } from './checkProgram.ts';
import { openProgram, orProblem } from './openProgram.ts';
import { shownPath } from './paths.ts';
import { print } from './print.ts';
import { profiles } from './profileOf.ts';
import { type ProgramPath, programPaths } from './programPaths.ts';
import { encodeProgram } from './programText.ts';
import { readProgram } from './readProgram.ts';
import { refuse } from './refuse.ts';
import type { ExitStatus, FileProblem, Terminal } from './terminal.ts';

export const checkFormats = ['text', 'json', 'sarif', 'github', 'junit'] as const;

export interface CheckOptions {
  readonly format: (typeof checkFormats)[number];
  readonly strict: boolean;
  readonly fix: boolean;
  readonly profile: string | null;
  /** File of findings that are known and left out. */
  readonly baseline: string | null;
  /** File to write what is found to. */
  readonly writeBaseline: string | null;
}

/** `probewright check PATH…`: what is found in each program, in the order that they were named. */
export async function check(
  names: readonly string[],
  options: CheckOptions,
  terminal: Terminal,
  version: string,
): Promise<ExitStatus> {
  if (options.fix && names.includes('-'))
    return refuse(terminal, ['--fix needs a file to write to: leave it out, or name a file instead of `-`.']);
  if (options.baseline !== null && options.writeBaseline !== null)
    return refuse(terminal, [
      '--baseline and --write-baseline exclude each other: a baseline is written of all findings.',
    ]);
  const programs = programPaths(names, terminal);
  if ('problems' in programs) return refuse(terminal, programs.problems);
  const withProfiles = profilesOf(programs.paths, options.profile, terminal);
  if ('faults' in withProfiles) return refuse(terminal, withProfiles.faults);
  if (options.writeBaseline !== null)
    return writeBaseline(
      resolve(terminal.cwd, options.writeBaseline),
      withProfiles.programs,
      options,
      terminal,
    );
  const header = { version, profile: sharedProfile(withProfiles.programs) };
  return checkAll(withProfiles.programs, reportOf(header, options, terminal), options, terminal);
}

interface ProgramWithProfile {
  readonly path: ProgramPath;
  readonly profile: FileProfile;
}

function profilesOf(
  paths: readonly ProgramPath[],
  named: string | null,
  terminal: Terminal,
): { readonly programs: readonly ProgramWithProfile[] } | { readonly faults: readonly string[] } {
  const profileOf = profiles(named, terminal);
  const programs: ProgramWithProfile[] = [];
  const faults = new Set<string>();
  for (const path of paths) {
    const profile = profileOf(path.absolute);
    if ('faults' in profile) for (const fault of profile.faults) faults.add(fault);
    else programs.push({ path, profile });
  }
  return faults.size > 0 ? { faults: [...faults] } : { programs };
}

function sharedProfile(programs: readonly ProgramWithProfile[]): string | null {
  const paths = new Set(programs.map(({ profile }) => profile.uri));
  return paths.size === 1 ? ([...paths][0] ?? null) : null;
}

function reportOf(header: CheckHeader, { format }: CheckOptions, terminal: Terminal): CheckReport {
  switch (format) {
    case 'json':
      return checkJson(header);
    case 'sarif':
      return checkSarif(header, rules);
    case 'github':
      return checkGithub();
    case 'junit':
      return checkJunit();
    case 'text':
      return checkText(styleFor(terminal.colour), terminal.width);
  }
}

async function checkAll(
  programs: readonly ProgramWithProfile[],
  report: CheckReport,
  options: CheckOptions,
  terminal: Terminal,
): Promise<ExitStatus> {
  const { baseline: file } = options;
  const baseline = file === null ? null : Baseline.read(resolve(terminal.cwd, file), terminal);
  if (baseline && 'problem' in baseline) return refuse(terminal, [baseline.problem]);
  const summary = { error: 0, warning: 0, info: 0, suppressed: 0, known: 0, programs: 0 };
  let unreadable = false;
  const called = callsOf(terminal);
  print(terminal, report.begin());
  for (const [index, { path, profile }] of programs.entries()) {
    terminal.progress(`checking ${path.shown} (${index + 1} of ${programs.length})`);
    const calls: Calls = (source) => called(path.absolute, source);
    const checked = await checkOne(path, profile, calls, options.fix, terminal, (all) => {
      terminal.progress(null);
      const done = baseline
        ? { ...all, findings: baseline.fresh(path.absolute, all.source, all.findings) }
        : all;
      for (const { severity } of done.findings) summary[severity]++;
      summary.known += all.findings.length - done.findings.length;
      print(terminal, report.program(reported(path, done)));
    });
    terminal.progress(null);
    if ('problem' in checked) {
      terminal.error(`probewright: ${checked.problem}\n`);
      // A folder may hold files of other kinds under the same endings; a file that somebody names is meant.
      unreadable ||= !path.walked;
      continue;
    }
    summary.suppressed += checked.suppressed;
    summary.programs++;
  }
  print(terminal, report.end(summary));
  for (const entry of baseline?.stale(terminal) ?? [])
    terminal.error(`probewright: ${file}: stale: ${entry}\n`);
  if (unreadable) return 2;
  return summary.error > 0 || (options.strict && summary.warning > 0) ? 1 : 0;
}

/** Writes down what is found, and reports nothing: from here on only what is new counts. */
async function writeBaseline(
  file: string,
  programs: readonly ProgramWithProfile[],
  options: CheckOptions,
  terminal: Terminal,
): Promise<ExitStatus> {
  const written = new NewBaseline(file);
  const called = callsOf(terminal);
  for (const { path, profile } of programs) {
    const calls: Calls = (source) => called(path.absolute, source);
    const checked = await checkOne(path, profile, calls, options.fix, terminal, ({ source, findings }) =>
      written.add(path.absolute, source, findings),
    );
    if (!('problem' in checked)) continue;
    terminal.error(`probewright: ${checked.problem}\n`);
    if (!path.walked) return 2;
  }
  const shown = shownPath(terminal.cwd, file);
  const fault = terminal.files.replace(file, new TextEncoder().encode(written.text()));
  if (fault !== null) return refuse(terminal, [`${shown}: cannot be written: ${fault.problem}.`]);
  terminal.error(`probewright: ${shown}: ${counted(written.count, 'finding')} written down.\n`);
  return 0;
}

function reported({ shown }: ProgramPath, { source, findings }: Checked): CheckedProgram {
  return { path: shown, dialect: source.dialect.name, findings, line: (row) => source.text.line(row) };
}

/** What is found is told while the program is open: it shows lines of it. */
async function checkOne(
  path: ProgramPath,
  profile: FileProfile,
  calls: Calls,
  fix: boolean,
  terminal: Terminal,
  tell: (checked: Checked) => void,
): Promise<Checked | FileProblem> {
  if (fix) {
    const fixed = await fixOne(path, profile, calls, terminal);
    if (!('problem' in fixed)) tell(fixed);
    return fixed;
  }
  const program = await openProgram(path, terminal);
  if ('problem' in program) return program;
  try {
    return await orProblem(path, async () => {
      const checked = await checkProgram(program.text, profile, calls);
      tell(checked);
      return checked;
    });
  } finally {
    program.close();
  }
}

async function fixOne(
  path: ProgramPath,
  profile: FileProfile,
  calls: Calls,
  terminal: Terminal,
): Promise<Checked | FileProblem> {
  const read = await readProgram(path, terminal);
  if ('problem' in read) return read;
  const fixed = await fixProgram(read.text, profile, calls);
  if (fixed.applied === 0) return fixed;
  const bytes = encodeProgram(fixed.source.text.toString(), read.coding);
  const fault = terminal.files.write(path.absolute ?? '', bytes);
  if (fault !== null) return { problem: `${path.shown}: cannot be written: ${fault.problem}.` };
  terminal.error(`probewright: ${path.shown}: ${counted(fixed.applied, 'fix', 'fixes')} applied.\n`);
  return fixed;
}
