import { analyse } from '../analysis/analysis.ts';
import { type CalledFiles, noCalledFiles } from '../analysis/calledFiles.ts';
import { Part } from '../part/part.ts';
import type { Setup } from '../part/setup.ts';
import type { Solid } from '../part/solid.ts';
import { probeOf } from '../profile/probeOf.ts';
import type { Profile } from '../profile/profile.ts';
import type { Source } from '../syntax/source.ts';
import { type CompiledProgram, compileProgram } from './compiledProgram.ts';
import { type Expectation, moved, unjudged } from './expectations.ts';
import { type Fault, type FaultName, faultNames, faultsFor, joined, undisturbed } from './faults.ts';
import type { MachineParts } from './machineParts.ts';
import { MachineValues } from './machineValues.ts';
import { type Outcome, outcomeOf, worst } from './outcome.ts';
import { plainRun } from './plainRun.ts';
import { type ProgramPlace, placeWords, programPlace } from './programPlace.ts';
import { type RunLimits, runOnce } from './runOnce.ts';
import type { RunRecord } from './runRecord.ts';
import { storyOf } from './story.ts';
import { unstatedTolerance } from './truthFromTouches.ts';
import type { UsualRun } from './usualRun.ts';
import { virtualProbe } from './virtualProbe.ts';

export interface RehearseOptions {
  /** Files that the program calls. */
  readonly called?: CalledFiles;
  /** The faults to try, a pair of names being both at once; absent: every one. */
  readonly faults?: readonly (FaultName | readonly [FaultName, FaultName])[];
  /** A run of more blocks is endless. */
  readonly mostBlocks?: number;
  /** Asked now and then; once it says true, `Cancelled` is thrown. */
  readonly cancelled?: () => boolean;
  readonly progress?: (done: number, all: number) => void;
}

/** A run, what became of it, and the line where that was decided. */
export interface RehearsedRun extends ProgramPlace {
  readonly record: RunRecord;
  readonly outcome: Outcome;
  /** The shortest story of how. */
  readonly story: string;
}

export interface Rehearsal {
  readonly undisturbed: RehearsedRun;
  readonly faults: readonly (RehearsedRun & { readonly fault: Fault })[];
  readonly expectations: readonly Expectation[];
  readonly verdict: 'pass' | 'fail';
  /** What was left out or taken for granted. */
  readonly cautions: readonly string[];
  /** @param line 0-based, of the joined program, as the records have it */
  placeOf(line: number): ProgramPlace;
}

/** Everything that runs of one program in one setup share. */
export interface Stage {
  readonly program: CompiledProgram;
  readonly parts: MachineParts;
  readonly setup: Setup;
}

const usualBlocks = 200_000;

/**
 * Runs a program against a virtual part before the machine sees it: once undisturbed and once with each fault. The setup
 * says what stands in the machine, the profile which probe hangs in it. Never throws but for `Cancelled`.
 */
export function rehearse(
  source: Source,
  setup: Setup,
  profile: Profile,
  options: RehearseOptions = {},
): Rehearsal {
  const steps = rehearseInSteps(source, setup, profile, options);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
    options.progress?.(step.value.done, step.value.all);
  }
}

/** The same with a pause before the run of each fault, of which `done` have been tried. */
export function* rehearseInSteps(
  source: Source,
  setup: Setup,
  profile: Profile,
  options: Omit<RehearseOptions, 'progress'> = {},
): Generator<{ readonly done: number; readonly all: number }, Rehearsal, void> {
  const stage = stageFor(source, setup, profile, options.called ?? noCalledFiles);
  const limits = limitsOf(options, options.mostBlocks ?? usualBlocks + 2 * source.text.lineCount);
  const partFor = partsOf();
  const writesDatums = () => hasDatums(source, profile, options.called ?? noCalledFiles);
  const first = plainRun(stage, partFor(setup.solids), limits, writesDatums);
  const { expectations, inferred, parts } = first;
  const plain = told(stage, first, { fault: null, usual: null });
  // A fault may make a program longer, but hardly so much longer.
  const most = Math.min(limits.mostBlocks, 20 * first.record.blocks + 10_000);
  const faults: (RehearsedRun & { fault: Fault })[] = [];
  const wanted = faultsWanted(setup, first.record.touches.length, options.faults);
  for (const [index, fault] of wanted.entries()) {
    yield { done: index, all: wanted.length };
    const changed = fault.change(undisturbed(setup));
    const part = partFor(changed.solids);
    const record = runOnce(stage.program, parts, changed, part, limitsOf(options, most));
    if (!record.applied) continue;
    const outcome = outcomeOf(record, moved(expectations, fault.moves), {
      partAbsent: fault.partAbsent,
      usual: first.usual.messages,
      writesDatums,
    });
    faults.push({ fault, ...told(stage, { record, outcome }, { fault, usual: first.usual }) });
  }
  return {
    undisturbed: plain,
    faults,
    expectations,
    verdict: verdictOf(plain, faults, expectations),
    cautions: [
      ...inferredCautions(inferred),
      ...unjudgedCautions(first.record, expectations),
      ...untriedCautions(
        options.faults ?? faultNames,
        wanted,
        faults.map(({ fault }) => fault),
      ),
      ...lostCautions(faults, lineOf(stage)),
      ...cautionsOf([plain, ...faults], profile),
    ],
    placeOf: (line) => programPlace(stage.program.program, line),
  };
}

/** A program made ready to be run in a setup with the probe of a profile. */
export function stageFor(source: Source, setup: Setup, profile: Profile, called: CalledFiles): Stage {
  const parts: MachineParts = {
    setup,
    values: new MachineValues(setup, source.dialect.name),
    probe: virtualProbe(probeOf(profile)),
    probeTool: profile.probe.tool,
    calibratedAt: profile.probe.calibration?.spindle ?? 0,
    dialect: source.dialect.name,
    assumedUnit: profile.units,
    usualMessages: null,
  };
  return { program: compileProgram(source, called), parts, setup };
}

function limitsOf({ cancelled }: RehearseOptions, mostBlocks: number): RunLimits {
  return cancelled ? { mostBlocks, cancelled } : { mostBlocks };
}

/** Parts are made once for each list of solids. */
function partsOf(): (solids: readonly Solid[]) => Part {
  const made = new Map<readonly Solid[], Part>();
  return (solids) => {
    const part = made.get(solids) ?? new Part(solids);
    made.set(solids, part);
    return part;
  };
}

function faultsWanted(setup: Setup, touches: number, asked: RehearseOptions['faults']): readonly Fault[] {
  const all = faultsFor(setup, touches);
  if (!asked) return all;
  const named = (name: FaultName) => all.filter((fault) => fault.name === name);
  return asked.flatMap((name) =>
    typeof name === 'string' ? named(name) : joined(named(name[0]), named(name[1])),
  );
}

/** Whether a program writes work offsets where it gets to the end of its work. */
export function hasDatums(source: Source, profile: Profile, called: CalledFiles): boolean {
  const { datums, elsewhere } = analyse(source, profile, called);
  return datums.length + elsewhere.datums.length > 0;
}

function told(
  stage: Stage,
  { record, outcome }: Pick<RehearsedRun, 'record' | 'outcome'>,
  { fault, usual }: { readonly fault: Fault | null; readonly usual: UsualRun | null },
): RehearsedRun {
  const { units } = stage.setup;
  const story = storyOf(record, outcome, { fault, usual, lineOf: lineOf(stage), units });
  return { record, outcome, ...programPlace(stage.program.program, outcome.line), story };
}

function lineOf({ program }: Stage): (line: number) => string {
  return (line) => placeWords(programPlace(program.program, line));
}

function verdictOf(
  plain: RehearsedRun,
  faults: readonly (RehearsedRun & { fault: Fault })[],
  expectations: readonly Expectation[],
): 'pass' | 'fail' {
  const { name } = plain.outcome;
  // What is right without a touch was right before, or is a number that somebody wrote down.
  const touched = plain.record.touches.some(({ tripped }) => tripped);
  const isRight = name === 'datum-right' || (name === 'completed' && expectations.length === 0);
  if (!touched || !isRight) return 'fail';
  return faults.some((run) => worst.includes(run.outcome.name) && !isPastHelp(run)) ? 'fail' : 'pass';
}

/** What no program could survive: a dead probe, and for a height a tool of another length. */
function isPastHelp({ fault, outcome }: RehearsedRun & { readonly fault: Fault }): boolean {
  const names = fault.name.split('+');
  if (names.includes('probe-dead')) return true;
  const heights = outcome.wrong.every(({ key }) => key.endsWith('.z'));
  return names.includes('wrong-tool') && outcome.name === 'wrong-datum' && heights;
}

function inferredCautions(inferred: readonly Expectation[]): string[] {
  if (inferred.length === 0) return [];
  const keys = inferred.map(({ key }) => key).join(', ');
  return [
    `the setup expects nothing of ${keys}: held against the middle or the face of what was touched, ±${unstatedTolerance} mm`,
  ];
}

function unjudgedCautions(first: RunRecord, expectations: readonly Expectation[]): string[] {
  const keys = unjudged(first, expectations).join(', ');
  if (keys === '') return [];
  return [`whether ${keys} came out right: it does not follow from what was touched; say so under "expect"`];
}

/** Faults that were asked for and of which the table holds no run: a reader must not take them for survived. */
function untriedCautions(
  asked: NonNullable<RehearseOptions['faults']>,
  wanted: readonly Fault[],
  tried: readonly Fault[],
): string[] {
  const names = asked.map((each) => (typeof each === 'string' ? each : each.join('+')));
  const missing = (from: readonly Fault[]) => names.filter((each) => !from.some(({ name }) => name === each));
  const sizeless = missing(wanted);
  const idle = missing(tried).filter((each) => !sizeless.includes(each));
  return [
    ...(sizeless.length === 0
      ? []
      : [`${sizeless.join(', ')}: the setup or the program leaves no room for it`]),
    ...(idle.length === 0 ? [] : [`${idle.join(', ')}: it makes no difference to this program`]),
  ];
}

/** A run that needs what is not at hand ends there, and what would have come of it is not known. */
function lostCautions(
  faults: readonly (RehearsedRun & { readonly fault: Fault })[],
  wordsOf: (line: number) => string,
): string[] {
  const lost = faults.flatMap(({ fault, record: { end } }) =>
    end.kind === 'not-followed' ? [{ fault: fault.name, why: `${wordsOf(end.line)}: ${end.text}` }] : [],
  );
  return [...new Set(lost.map(({ why }) => why))].map((why) => {
    const names = new Set(lost.filter((each) => each.why === why).map(({ fault }) => fault));
    return `what becomes of ${[...names].join(', ')} behind ${why}`;
  });
}

function cautionsOf(runs: readonly RehearsedRun[], profile: Profile): string[] {
  const found = new Set(runs.flatMap(({ record }) => [...record.cautions]));
  return [
    ...found,
    'the probe’s body is not modelled: only its ball and its stem up to the gauge line are',
    ...(profile.probe.calibration === null ? ['the pre-travel is predicted, not calibrated'] : []),
  ];
}
