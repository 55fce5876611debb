import type { OutcomeView, RehearsalView, RehearsedRunView, TouchView } from '../protocol/requests.ts';
import { isRotaryKey } from '../rehearsal/expectations.ts';
import { missedHow } from '../rehearsal/missedHow.ts';
import { type OutcomeName, outcomeNames } from '../rehearsal/outcome.ts';
import type { ProgramPlace } from '../rehearsal/programPlace.ts';
import type { Rehearsal, RehearsedRun } from '../rehearsal/rehearse.ts';
import type { TouchRecord } from '../rehearsal/runRecord.ts';
import { directionName } from '../report/direction.ts';
import { type Quantities, quantities, type Units } from '../report/quantities.ts';
import { faultMatrix, faultTitle, proofFirst, untried } from '../report/rehearsalWords.ts';

/** A rehearsal as the editor shows it. @param restsOn URIs of what it hangs on beside the program and the setup */
export function rehearsalView(rehearsal: Rehearsal, restsOn: readonly string[], units: Units): RehearsalView {
  const { undisturbed, faults, verdict, cautions } = rehearsal;
  const show = quantities(units);
  const { outcomes, rows } = faultMatrix(rehearsal);
  const { touches, seconds } = undisturbed.record;
  return {
    kind: 'rehearsed',
    verdict,
    undisturbed: {
      ...runView(undisturbed),
      touches: touches.map((touch) => touchView(touch, rehearsal.placeOf(touch.line), show)),
      datums: [...undisturbed.outcome.errors].map(([key, error]) => ({
        key,
        error: datumError(key, error, show),
      })),
      seconds,
      untried: untried(rehearsal),
    },
    matrix: { outcomes: outcomes.map(outcomeView), rows },
    runs: faults
      .toSorted((a, b) => badness(a) - badness(b))
      .map(({ fault, ...run }) => ({ title: faultTitle(fault), ...runView(run) })),
    cautions: [...cautions, proofFirst],
    restsOn,
  };
}

function badness({ outcome }: RehearsedRun): number {
  return outcomeNames.indexOf(outcome.name);
}

function runView({ outcome, line, file, story }: RehearsedRun): RehearsedRunView {
  return { outcome: outcomeView(outcome.name), line: line - 1, file, story };
}

function outcomeView(name: OutcomeName): OutcomeView {
  const [grade, meaning] = outcomes[name];
  return { name, grade, meaning };
}

/** Errors of rotary axes are degrees whatever the units. */
function datumError(key: string, error: number, show: Quantities): string {
  return isRotaryKey(key) ? `${error.toFixed(4)}°` : show.signedError(error);
}

function touchView(touch: TouchRecord, { line, file }: ProgramPlace, show: Quantities): TouchView {
  return {
    line: line - 1,
    file,
    code: touch.code,
    direction: directionName(touch.direction),
    overtravel: touch.tripped ? show.length(touch.overtravel) : missedHow(touch),
  };
}

const outcomes: Readonly<Record<OutcomeName, readonly [OutcomeView['grade'], string]>> = {
  collision: ['bad', 'Something was hit, or the stylus pushed past its overtravel.'],
  'wrong-datum': ['bad', 'A datum was written outside of its tolerance, and nothing stopped the program.'],
  endless: ['bad', 'The program does not come to an end.'],
  'contact-stop': ['stopped', 'It stopped with the tip against the part.'],
  'message-stop': ['stopped', 'It stopped with an alarm or a message, free of the part.'],
  'datum-right': ['right', 'Every datum is within its tolerance.'],
  completed: [
    'right',
    'It came to its end; no datum was expected of it, or not every expected one was written.',
  ],
};
