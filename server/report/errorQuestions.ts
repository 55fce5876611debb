import { type DatumErrorResult, datumValue } from '../analysis/error.ts';
import type { Datum } from '../analysis/model.ts';
import { decision } from '../probe/decision.ts';
import type { DerivedValue, ErrorBudget } from '../probe/derivedError.ts';
import { whatWouldDecide } from '../probe/improvement.ts';
import { mostTrials } from '../probe/monteCarlo.ts';
import { agreement } from '../probe/monteCarloAgreement.ts';
import { drawnError } from '../probe/monteCarloDerived.ts';
import { meansOf } from '../profile/meansOf.ts';
import { probeOf } from '../profile/probeOf.ts';
import type { Profile } from '../profile/profile.ts';
import type { DatumAnswers } from './errorReport.ts';
import { readLength } from './readLength.ts';

/** As they were written; null: not asked. */
export interface QuestionOptions {
  readonly tolerance: string | null;
  readonly ratio: string;
  readonly trials: string | null;
  readonly seed: string;
}

/** What is asked about each datum beside its error; `tolerance` in mm, ±. */
export interface Questions {
  readonly tolerance: number | null;
  readonly ratio: number;
  readonly trials: number | 'adaptive' | null;
  readonly seed: number;
}

/** A sentence where an option makes no sense. A tolerance without a unit is in `units`. */
export function readQuestions(
  options: QuestionOptions,
  units: 'mm' | 'inch',
): Questions | { readonly problem: string } {
  const { tolerance: written, trials: count } = options;
  const tolerance = written === null ? null : readLength(written.replace(/^\s*(±|\+-|\+\/-)/, ''), units);
  if (written !== null && tolerance === null)
    return {
      problem: `--tolerance ${written}: name half of its width, over 0, such as 0.01, 0.01mm or 0.0004in.`,
    };
  const ratio = Number(options.ratio);
  if (!(ratio >= 1 && ratio <= 100))
    return { problem: `--ratio ${options.ratio}: a number from 1 to 100, such as 10 or 4.` };
  const trials = count === null || count === 'adaptive' ? count : Number(count);
  if (typeof trials === 'number' && !(Number.isInteger(trials) && trials >= 1000 && trials <= mostTrials))
    return { problem: `--trials ${count}: a whole number from 1000 to ${mostTrials}, or adaptive.` };
  const seed = Number(options.seed);
  if (!Number.isSafeInteger(seed)) return { problem: `--seed ${options.seed}: a whole number.` };
  return { tolerance, ratio, trials, seed };
}

export function answers(
  datum: Datum,
  error: DatumErrorResult | null,
  profile: Profile,
  questions: Questions,
): DatumAnswers {
  const value = datumValue(datum, profile);
  if (error === null || value === null) return { decided: null, drawn: null };
  return {
    // A tolerance is a length.
    decided: datum.unit === 'mm' ? decided(value, error, profile, questions) : null,
    drawn: drawn(value, error, profile, questions),
  };
}

function decided(
  value: DerivedValue,
  error: ErrorBudget,
  profile: Profile,
  { tolerance, ratio }: Questions,
): DatumAnswers['decided'] {
  if (tolerance === null) return null;
  const found = decision(error, tolerance);
  const outlook = whatWouldDecide(probeOf(profile), value, tolerance, ratio, meansOf(profile));
  return found && outlook && { ratio, decision: found, outlook };
}

function drawn(
  value: DerivedValue,
  error: ErrorBudget,
  profile: Profile,
  { trials, seed }: Questions,
): DatumAnswers['drawn'] {
  if (trials === null) return null;
  if (error.notIncluded.includes('input')) return { notDrawn: 'input' };
  const result = drawnError(probeOf(profile), value, { trials, seed });
  return 'notDrawn' in result ? result : { seed, result, agreement: agreement(result, error) };
}
