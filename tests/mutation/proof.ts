import { analyse } from '../../server/analysis/analysis.ts';
import { check } from '../../server/checks/check.ts';
import { randomNumbers } from '../routines/randomInputs.ts';
import type { CleanProgram } from './cleanPrograms.ts';
import { judgeFor, sourceOf } from './judge.ts';
import { type Mutation, mutationsOf } from './mutations.ts';

/** What became of the mutants that do harm, by kind; `within`: those that are left out, see `isWithinMargin`. */
export type Tally = Map<string, { found: number; readonly missed: string[]; within: number }>;

/** `one in so many` mutants of a program; the seed says which. */
export interface Share {
  readonly oneIn: number;
  readonly seed: number;
}

/**
 * The slips that the proof asks for (issue 5): what a check could know from the text. The others are left out: no text
 * alone says that they are wrong: a way to another place is right for another part (the rehearsal is there for that), and a
 * program that compares no two touches is as most are.
 */
const asked: ReadonlySet<string> = new Set([
  'retract dropped',
  'success test dropped',
  'test before the touch',
  'no alarm',
  'L2 for L20',
  'L20 for L2',
  'sign flipped',
  'diameter for the radius',
  'radius for the diameter',
  'actual for the effective',
  'feed raised',
  'G90 deleted',
  'other work offset',
  'half lost',
]);

/** Tries the mutants of a program, those that are asked for alone: which of those that do harm have a finding that the program did not have. */
export function tryMutants(program: CleanProgram, tally: Tally, share: Share): void {
  const random = randomNumbers(share.seed);
  const mutants = mutationsOf(sourceOf(program, program.text), program.profile, program.results).filter(
    ({ kind }) => asked.has(kind) && random() < 1 / share.oneIn,
  );
  const judge = mutants.length > 0 ? judgeFor(program) : null;
  if (judge === null) return;
  const before = ruleCounts(program, program.text);
  for (const mutant of mutants) {
    const harm = judge(mutant.text);
    if (harm === null) continue;
    if (harm.startsWith('feed-doubled') && isWithinMargin(program, mutant.text)) {
      entryOf(tally, mutant).within++;
      continue;
    }
    const after = ruleCounts(program, mutant.text);
    const isFound = [...after].some(([rule, count]) => count > (before.get(rule) ?? 0));
    note(tally, mutant, isFound, `${program.name}, line ${mutant.line + 1}: ${mutant.said} (${harm})`);
  }
}

function note(tally: Tally, mutant: Mutation, isFound: boolean, said: string): void {
  const entry = entryOf(tally, mutant);
  if (isFound) entry.found++;
  else entry.missed.push(said);
}

function entryOf(tally: Tally, { kind }: Mutation) {
  const entry = tally.get(kind) ?? { found: 0, missed: [], within: 0 };
  tally.set(kind, entry);
  return entry;
}

/**
 * Harm that only twice the written feeds do, where these keep what is asked of them (error-model.md, section 5): each known
 * feed of a touch stops under the overtravel divided by the safety factor, and no calibration says at which to measure.
 */
function isWithinMargin(program: CleanProgram, text: string): boolean {
  const { probe, machine, overtravelSafetyFactor } = program.profile;
  if (probe.calibration !== null) return false;
  const limit = Math.min(probe.overtravel.lateral, probe.overtravel.axial) / overtravelSafetyFactor;
  return analyse(sourceOf(program, text), program.profile).touches.every(({ feed }) => {
    if (feed.value === null) return false;
    const speed = feed.value / 60;
    return speed * machine.reactionTime + speed ** 2 / (2 * machine.deceleration) <= limit;
  });
}

/** Findings of any level, by rule. */
function ruleCounts(program: CleanProgram, text: string): Map<string, number> {
  const source = sourceOf(program, text);
  const counts = new Map<string, number>();
  for (const { rule } of check(source, analyse(source, program.profile), program.profile).findings)
    counts.set(rule, (counts.get(rule) ?? 0) + 1);
  return counts;
}

/** How many of the harmful mutants were found, 0 to 1. */
export function shareFound(tally: Tally): number {
  const entries = [...tally.values()];
  const found = entries.reduce((sum, entry) => sum + entry.found, 0);
  return found / entries.reduce((sum, entry) => sum + entry.found + entry.missed.length, 0);
}

/** The tally in words, with every mutant that was missed. */
export function tallyText(tally: Tally): string {
  const rows = [...tally].sort(([, a], [, b]) => b.missed.length - a.missed.length);
  return [
    `found: ${(100 * shareFound(tally)).toFixed(1)} % of what does harm`,
    ...rows.flatMap(([kind, { found, missed, within }]) => [
      `${kind}: ${found} found, ${missed.length} missed${within > 0 ? `; left out ${within} whose feed as written keeps the margin` : ''}`,
      ...missed.map((said) => `  ${said}`),
    ]),
  ].join('\n');
}
