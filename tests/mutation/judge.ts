import type { Setup } from '../../server/part/setup.ts';
import { type FaultName, faultNames } from '../../server/rehearsal/faults.ts';
import { outcomeNames } from '../../server/rehearsal/outcome.ts';
import { proposeSetup } from '../../server/rehearsal/proposeSetup.ts';
import { type Rehearsal, type RehearsedRun, rehearse } from '../../server/rehearsal/rehearse.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { Source } from '../../server/syntax/source.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';
import type { CleanProgram } from './cleanPrograms.ts';

/** What a mutation does to the machine, in words; null: nothing that the judge can see. */
export type Judge = (text: string) => string | null;

/** Datums and results of the mutant may differ by so much from those of the original, mm or degrees. */
const tolerance = 0.005;
const harmless = outcomeNames.indexOf('message-stop');

/**
 * Judges mutants by the rehearsal, in the setup that it proposes for the original: it runs the text on numbers and sees
 * collisions and datums, and knows nothing of findings. Harm is a run, undisturbed or with a fault, that ends in a
 * collision, a wrong datum, an endless loop or a stop in contact where the original ended better; or a result of the
 * undisturbed run that differs; or the end of a travel kept as a result where the original stopped. null: no setup in
 * which the original does its work.
 */
export function judgeFor(program: CleanProgram): Judge | null {
  const source = sourceOf(program, program.text);
  const proposal = proposeSetup(source, program.profile);
  if ('problem' in proposal) return null;
  const { undisturbed } = proposal.rehearsal;
  if (!['datum-right', 'completed'].includes(undisturbed.outcome.name)) return null;
  const setup = exact(proposal.setup, undisturbed);
  const original = rehearse(source, setup, program.profile);
  const worst = new Map<string, Worst>(faultNames.map((name) => [name, worstOf(original, name)]));
  return (text) => {
    const mutant = sourceOf(program, text);
    const run = (faults: readonly FaultName[]) => rehearse(mutant, setup, program.profile, { faults });
    const plain = run([]).undisturbed;
    if (rank(plain) < harmless && rank(plain) < rank(original.undisturbed))
      return `undisturbed: ${plain.outcome.name}`;
    const result = otherResult(program, original.undisturbed, plain);
    if (result !== null) return `undisturbed: ${result}`;
    // It stops at once, so that nobody gets as far as a fault with it.
    if (plain.outcome.stopped) return null;
    for (const names of quickestFirst) {
      for (const each of run(names).faults) {
        const name = each.fault.name;
        const before = worst.get(name);
        if (rank(each) < harmless && rank(each) < (before?.rank ?? 99))
          return `${name} ${each.fault.detail}${each.fault.touch ?? ''}: ${each.outcome.name}`;
        const keeps = findsNothing.has(name) && keepsBlindly(each);
        if (keeps && before && !before.keeps && before.stopped)
          return `${name} ${each.fault.detail}: kept what no touch found`;
      }
    }
    return null;
  };
}

const quickestFirst: readonly (readonly FaultName[])[] = [
  ['part-absent', 'probe-dead', 'part-shifted', 'start-shifted', 'feed-doubled', 'wrong-tool', 'part-turned'],
  ['false-trip'],
  ['probe-stuck'],
];

export function sourceOf({ dialect }: CleanProgram, text: string): Source {
  return Source.from(SourceText.from(text), dialects[dialect]);
}

/** What comes out undisturbed is right, to the tolerance. */
function exact(setup: Setup, { outcome }: RehearsedRun): Setup {
  const expect = [...setup.expect].map(([key, { value }]): [string, { value: number; tolerance: number }] => [
    key,
    { value: value + (outcome.errors.get(key) ?? 0), tolerance },
  ]);
  return { ...setup, expect: new Map(expect) };
}

/** What a kind of fault does to the original at worst. */
interface Worst {
  readonly rank: number;
  readonly stopped: boolean;
  readonly keeps: boolean;
}

function worstOf({ faults }: Rehearsal, name: FaultName): Worst {
  const runs = faults.filter(({ fault }) => fault.name === name);
  return {
    rank: Math.min(99, ...runs.map(rank)),
    stopped: runs.some(({ outcome }) => outcome.stopped),
    keeps: runs.some(keepsBlindly),
  };
}

/** Faults in which no touch that looks for the part can find it. */
const findsNothing: ReadonlySet<string> = new Set<FaultName>(['part-absent', 'probe-dead']);

function keepsBlindly({ record, outcome }: RehearsedRun): boolean {
  return record.kept.length > 0 && !outcome.stopped;
}

function rank({ outcome }: RehearsedRun): number {
  return outcomeNames.indexOf(outcome.name);
}

/** A result that came out otherwise, where the mutant did not stop. */
function otherResult({ results }: CleanProgram, was: RehearsedRun, is: RehearsedRun): string | null {
  if (is.outcome.stopped) return null;
  for (const name of results) {
    const [before, after] = [was.record.parameters.get(name), is.record.parameters.get(name)];
    if (before === undefined || after === undefined) continue;
    if (Math.abs(before - after) * was.record.unit > tolerance) return `${name} off by ${after - before}`;
  }
  return null;
}
