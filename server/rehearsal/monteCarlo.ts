import { type CalledFiles, noCalledFiles } from '../analysis/calledFiles.ts';
import { Part } from '../part/part.ts';
import type { Setup } from '../part/setup.ts';
import type { Profile } from '../profile/profile.ts';
import type { Source } from '../syntax/source.ts';
import { chanceFrom } from './chance.ts';
import { errorsOf } from './expectations.ts';
import { undisturbed } from './faults.ts';
import { type OutcomeName, outcomeOf } from './outcome.ts';
import { plainRun } from './plainRun.ts';
import { hasDatums, stageFor } from './rehearse.ts';
import { runOnce } from './runOnce.ts';

/** What became of one expectation over many runs: written − true, mm (degrees for rotary axes). */
export interface Spread {
  readonly key: string;
  readonly mean: number;
  /** null for a single run. */
  readonly standardDeviation: number | null;
  readonly least: number;
  readonly greatest: number;
  readonly errors: readonly number[];
}

export interface MonteCarlo {
  readonly runs: number;
  readonly seed: number;
  readonly outcomes: ReadonlyMap<OutcomeName, number>;
  readonly spreads: readonly Spread[];
}

export interface MonteCarloOptions {
  readonly runs: number;
  readonly seed: number;
  readonly called?: CalledFiles;
  readonly cancelled?: () => boolean;
  readonly progress?: (done: number, all: number) => void;
}

const mostBlocks = 200_000;

/**
 * Runs the undisturbed program many times with what chance adds: the probe's repeatability, the latch period and the
 * resolution of the control; held against the setup and against the run without chance. One seed, one answer. Throws `Cancelled` and nothing else.
 */
export function monteCarlo(
  source: Source,
  setup: Setup,
  profile: Profile,
  { runs, seed, called = noCalledFiles, cancelled, progress }: MonteCarloOptions,
): MonteCarlo {
  const stage = stageFor(source, setup, profile, called);
  const part = new Part(setup.solids);
  const chance = chanceFrom(seed);
  const limits = cancelled ? { mostBlocks, cancelled } : { mostBlocks };
  const writesDatums = () => hasDatums(source, profile, called);
  const { expectations, parts, usual } = plainRun(stage, part, limits, writesDatums);
  const circumstances = { partAbsent: false, usual: usual.messages, writesDatums };
  const outcomes = new Map<OutcomeName, number>();
  const errors = new Map<string, number[]>();
  for (let run = 0; run < runs; run++) {
    if (run % 100 === 0) progress?.(run, runs);
    const record = runOnce(stage.program, parts, undisturbed(setup), part, limits, chance);
    const { name } = outcomeOf(record, expectations, circumstances);
    outcomes.set(name, (outcomes.get(name) ?? 0) + 1);
    for (const { expectation, error } of errorsOf(expectations, record)) {
      const found = errors.get(expectation.key) ?? [];
      found.push(error);
      errors.set(expectation.key, found);
    }
  }
  return { runs, seed, outcomes, spreads: [...errors].map(([key, found]) => spreadOf(key, found)) };
}

function spreadOf(key: string, errors: readonly number[]): Spread {
  const mean = errors.reduce((sum, error) => sum + error, 0) / errors.length;
  const square = errors.reduce((sum, error) => sum + (error - mean) ** 2, 0);
  let [least, greatest] = [Infinity, -Infinity];
  for (const error of errors) {
    least = Math.min(least, error);
    greatest = Math.max(greatest, error);
  }
  const standardDeviation = errors.length > 1 ? Math.sqrt(square / (errors.length - 1)) : null;
  return { key, mean, standardDeviation, least, greatest, errors };
}
