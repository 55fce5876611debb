import type { MonteCarlo } from '../rehearsal/monteCarlo.ts';
import type { ProgramPlace } from '../rehearsal/programPlace.ts';
import type { Rehearsal, RehearsedRun } from '../rehearsal/rehearse.ts';

/**
 * The stable contract for other programs (`command-line.md`): mm, machine coordinates, the ball's centre in x and y and
 * the tip in z. A line that stands in a called file has that file's name beside it. `monteCarlo` is there where runs were
 * asked for.
 * @param shown name of a called file, for its URI
 */
export function rehearsalJson(
  rehearsal: Rehearsal,
  chance: MonteCarlo | null,
  shown: (uri: string) => string,
): string {
  const { undisturbed, faults, verdict } = rehearsal;
  const place = ({ line, file }: ProgramPlace) => (file === null ? { line } : { line, file: shown(file) });
  const decided = (run: RehearsedRun) => ({ outcome: run.outcome.name, ...place(run), message: run.story });
  const result = {
    undisturbed: {
      ...decided(undisturbed),
      ...happened(undisturbed, (line) => place(rehearsal.placeOf(line))),
    },
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

function happened({ record, outcome }: RehearsedRun, placeOf: (line: number) => object): object {
  return {
    touches: record.touches.map(({ line, direction, latched, surface, overtravel }) => ({
      ...placeOf(line),
      direction,
      latched,
      surface,
      overtravel,
    })),
    collisions: record.collisions.map(({ line, point, with: met }) => ({
      ...placeOf(line),
      point,
      with: met,
    })),
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
