import { resolve } from 'node:path';
import type { CalledFiles } from '../analysis/calledFiles.ts';
import type { Setup } from '../part/setup.ts';
import type { Profile } from '../profile/profile.ts';
import { type FaultName, faultNames } from '../rehearsal/faults.ts';
import { monteCarlo } from '../rehearsal/monteCarlo.ts';
import { proposeSetup } from '../rehearsal/proposeSetup.ts';
import { readSetup } from '../rehearsal/readSetup.ts';
import { type RehearseOptions, rehearse as rehearseProgram } from '../rehearsal/rehearse.ts';
import { rehearsalJson } from '../report/rehearsalJson.ts';
import { rehearsalText } from '../report/rehearsalText.ts';
import { setupText } from '../report/setupText.ts';
import { styleFor } from '../report/style.ts';
import { dialects } from '../syntax/dialects.ts';
import { Source } from '../syntax/source.ts';
import { dialectOf } from '../workspace/openDocument.ts';
import { callsOf, shownFile } from './callsOf.ts';
import { shownPath } from './paths.ts';
import { profiles } from './profileOf.ts';
import { type ProgramPath, programPaths } from './programPaths.ts';
import { decodeProgram } from './programText.ts';
import { readProgram } from './readProgram.ts';
import { refuse } from './refuse.ts';
import type { ExitStatus, Terminal } from './terminal.ts';
import { writeFile } from './writeFile.ts';

export interface RehearseCommandOptions {
  /** null: none, which goes with `propose` alone. */
  readonly setup: string | null;
  /** Writes a setup in place of a rehearsal. */
  readonly propose: boolean;
  readonly output: string | null;
  readonly fault: readonly string[];
  readonly runs: string | null;
  readonly seed: string | null;
  readonly format: 'text' | 'json';
  readonly profile: string | null;
}

const mostRuns = 1_000_000;

/** `probewright rehearse FILE --setup SETUP.json`: the program on a virtual machine, undisturbed and with every fault. */
export async function rehearse(
  name: string,
  options: RehearseCommandOptions,
  terminal: Terminal,
): Promise<ExitStatus> {
  const wanted = readWanted(options);
  if ('problem' in wanted) return refuse(terminal, [wanted.problem]);
  const paths = programPaths([name], terminal);
  if ('problems' in paths) return refuse(terminal, paths.problems);
  const [path, second] = paths.paths;
  if (path === undefined || second !== undefined || path.walked)
    return refuse(terminal, [`${name}: a folder; name one program.`]);
  const profile = profiles(options.profile, terminal)(path.absolute);
  if ('faults' in profile) return refuse(terminal, profile.faults);
  const setup = wanted.setup === null ? null : setupAt(wanted.setup, terminal);
  if (setup && 'problems' in setup) return refuse(terminal, setup.problems);
  const read = await readProgram(path, terminal);
  if ('problem' in read) return refuse(terminal, [read.problem]);
  const source = Source.from(read.text, dialects[dialectOf(read.text, profile)]);
  const called = await callsOf(terminal)(path.absolute, source);
  if (setup === null)
    return propose({ source, called, profile: profile.profile, path }, options.output, terminal);
  const progress = (done: number, all: number) => terminal.progress(`rehearsing: ${done} of ${all}`);
  const tried = rehearseProgram(source, setup.setup, profile.profile, { ...wanted.faults, called, progress });
  const seed = wanted.seed ?? setup.setup.seed;
  const { runs } = wanted;
  const chance =
    runs === null
      ? null
      : monteCarlo(source, setup.setup, profile.profile, {
          runs,
          seed,
          called,
          progress,
        });
  terminal.progress(null);
  const page = {
    path: path.shown,
    setup: setup.shown,
    style: styleFor(terminal.colour),
    width: terminal.width,
    units: setup.setup.units,
    file: (uri: string) => shownFile(uri, terminal),
  };
  terminal.out(
    options.format === 'json' ? rehearsalJson(tried, chance, page.file) : rehearsalText(tried, chance, page),
  );
  return tried.verdict === 'pass' ? 0 : 1;
}

interface ForProposal {
  readonly source: Source;
  readonly called: CalledFiles;
  readonly profile: Profile;
  readonly path: ProgramPath;
}

/** Writes the setup that follows from what the program touches. */
function propose(
  { source, called, profile, path }: ForProposal,
  output: string | null,
  terminal: Terminal,
): ExitStatus {
  const proposal = proposeSetup(source, profile, called);
  if ('problem' in proposal) return refuse(terminal, [`${path.shown}: ${proposal.problem}`]);
  const text = setupText(proposal, path.shown);
  if (output === null) {
    terminal.out(text);
    return 0;
  }
  return writeFile(output, text, terminal);
}

interface Wanted {
  /** null: one is to be proposed. */
  readonly setup: string | null;
  readonly faults: Pick<RehearseOptions, 'faults'>;
  readonly runs: number | null;
  readonly seed: number | null;
}

function readWanted(options: RehearseCommandOptions): Wanted | { readonly problem: string } {
  const { setup, output, fault, runs, seed, format } = options;
  if (
    options.propose &&
    (setup !== null || fault.length > 0 || runs !== null || seed !== null || format !== 'text')
  )
    return { problem: '--propose writes a setup and rehearses nothing: only -o and --profile go with it.' };
  if (!options.propose && setup === null)
    return {
      problem: '--setup FILE is missing: what stands in the machine; --propose writes one to begin with.',
    };
  if (!options.propose && output !== null) return { problem: '-o, --output goes with --propose.' };
  const names: (FaultName | readonly [FaultName, FaultName])[] = [];
  for (const text of fault) {
    const parts = text.split('+');
    const known = parts.filter((part): part is FaultName => faultNames.includes(part as FaultName));
    const [first, second] = known;
    if (known.length !== parts.length || first === undefined || parts.length > 2)
      return {
        problem: `--fault ${text}: there is no such fault. Faults: ${faultNames.join(', ')}; two at once with a + between them.`,
      };
    names.push(second === undefined ? first : [first, second]);
  }
  const count = wholeNumber(runs, 1, mostRuns);
  if (count === undefined) return { problem: `--runs ${runs}: a whole number from 1 to ${mostRuns}.` };
  const begin = wholeNumber(seed, 0, 2 ** 31 - 1);
  if (begin === undefined) return { problem: `--seed ${seed}: a whole number from 0 to ${2 ** 31 - 1}.` };
  return { setup, faults: names.length === 0 ? {} : { faults: names }, runs: count, seed: begin };
}

/** null: not given; undefined: no such number. */
function wholeNumber(text: string | null, least: number, greatest: number): number | null | undefined {
  if (text === null) return null;
  const value = Number(text);
  return /^\d+$/.test(text) && value >= least && value <= greatest ? value : undefined;
}

/** The setup that the person named, or what is wrong with its file, a sentence a fault. */
function setupAt(
  name: string,
  { cwd, files }: Terminal,
): { readonly setup: Setup; readonly shown: string } | { readonly problems: readonly string[] } {
  const path = resolve(cwd, name);
  if (files.look(path)?.kind !== 'file') return { problems: [`${name}: no such setup file.`] };
  const shown = shownPath(cwd, path);
  const read = files.read(path);
  if ('problem' in read) return { problems: [`${shown}: the setup cannot be read: ${read.problem}.`] };
  const decoded = decodeProgram(read.bytes);
  if (decoded === null) return { problems: [`${shown}: the setup is no text. It is JSON with comments.`] };
  const { setup, problems } = readSetup(decoded.text);
  if (setup !== null) return { setup, shown };
  return {
    problems: problems.map(({ line, start, message }) => `${shown}:${line + 1}:${start + 1}: ${message}`),
  };
}
