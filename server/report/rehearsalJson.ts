import type { MonteCarlo } from '../rehearsal/monteCarlo.ts';
import type { Rehearsal, RehearsedRun } from '../rehearsal/rehearse.ts';

/**
 * The stable contract for other programs (`command-line.md`): mm, machine coordinates, the ball's centre in x and y and
 * the tip in z. `monteCarlo` is there where runs were asked for.
 */
export function rehearsalJson(rehearsal: Rehearsal, chance: MonteCarlo | null): string {
  const { undisturbed, faults, verdict } = rehearsal;
  const result = {
    undisturbed: undisturbedJson(undisturbed),
    faults: faults.map(({ fault, ...run }) => ({
      fault: fault.name,
      detail: fault.detail,
      touch: fault.touch,
      ...decided(run),
      datumErrors: Object.fromEntries(run.outcome.errors),
    })),
    verdict,
    ...(chance === null ? {} : { monteCarlo: monteCarloJson(chance) }),
  };
  return `${JSON.stringify(result, null, 2)}\n`;
}

function decided({ outcome, line, story }: RehearsedRun): object {
  return { outcome: outcome.name, line, message: story };
}

function undisturbedJson(run: RehearsedRun): object {
  const { record, outcome } = run;
  return {
    ...decided(run),
    touches: record.touches.map(({ line, direction, latched, surface, overtravel }) => ({
      line: line + 1,
      direction,
      latched,
      surface,
      overtravel,
    })),
    collisions: record.collisions.map(({ line, point, with: met }) => ({ line: line + 1, point, with: met })),
    workOffsets: Object.fromEntries(record.workOffsets),
    datumErrors: Object.fromEntries(outcome.errors),
    parameters: Object.fromEntries(record.parameters),
  };
}

function monteCarloJson({ runs, seed, outcomes, spreads }: MonteCarlo): object {
  return {
    runs,
    seed,
    outcomes: Object.fromEntries(outcomes),
    datums: Object.fromEntries(
      spreads.map(({ key, mean, standardDeviation, least, greatest }) => [
        key,
        { mean, standardDeviation, least, greatest },
      ]),
    ),
  };
}
