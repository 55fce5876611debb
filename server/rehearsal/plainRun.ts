import type { Part } from '../part/part.ts';
import { type Expectation, expectationsOf } from './expectations.ts';
import { undisturbed } from './faults.ts';
import type { MachineParts } from './machineParts.ts';
import { type Outcome, outcomeOf } from './outcome.ts';
import type { Stage } from './rehearse.ts';
import { type RunLimits, runOnce } from './runOnce.ts';
import type { RunRecord } from './runRecord.ts';
import { truthFromTouches } from './truthFromTouches.ts';
import { type UsualRun, usualRun } from './usualRun.ts';

/** The undisturbed run, and what the runs with a fault or with chance are held against. */
export interface PlainRun {
  readonly record: RunRecord;
  readonly outcome: Outcome;
  /** Those of the setup, then those that follow from what was touched. */
  readonly expectations: readonly Expectation[];
  readonly inferred: readonly Expectation[];
  readonly usual: UsualRun;
  /** For the runs after it. */
  readonly parts: MachineParts;
}

/** Runs a program without chance and without a fault. */
export function plainRun(
  { program, parts, setup }: Stage,
  part: Part,
  limits: RunLimits,
  writesDatums: () => boolean,
): PlainRun {
  const record = runOnce(program, parts, undisturbed(setup), part, limits);
  const stated = expectationsOf(setup);
  const inferred = truthFromTouches(record, stated, 2 * parts.probe.radius);
  const expectations = [...stated, ...inferred];
  const outcome = outcomeOf(record, expectations, { partAbsent: false, usual: null, writesDatums });
  const usual = usualRun(record, outcome.stopped);
  return {
    record,
    outcome,
    expectations,
    inferred,
    usual,
    parts: { ...parts, usualMessages: usual.messages },
  };
}
