import type { ErrorBudget } from './derivedError.ts';
import type { Limits } from './goodFor.ts';
import { normalProbability } from './quantiles.ts';

/**
 * How well a measurement decides a tolerance: with ten or four times its expected error in it (common practice, no single
 * source), only inside of limits narrowed by the guard band, or not at all.
 */
export type Verdict = 'ten-to-one' | 'four-to-one' | 'guard-band' | 'cannot';

/** What a tolerance of ±T means for one measurement, mm. */
export interface Decision {
  readonly tolerance: number;
  /** T over the expected error; null where that is 0. */
  readonly ratio: number | null;
  readonly verdict: Verdict;
  /** What to stay inside a limit by: U (ISO 14253-1, default rule; from memory). */
  readonly guardBand: number;
  /** A value corrected for its bias conforms within ± this about the nominal; null: no value does. */
  readonly acceptance: number | null;
  /** The same for the value as the program has it. */
  readonly acceptanceUncorrected: number | null;
}

/** null where the bias, and with it the expected error, is unknown. `tolerance`: half of its width, mm, over 0. */
export function decision(budget: ErrorBudget, tolerance: number): Decision | null {
  const { bias, expectedError, expandedUncertainty } = budget;
  if (bias === null || expectedError === null) return null;
  return {
    tolerance,
    ratio: expectedError === 0 ? null : tolerance / expectedError,
    verdict: verdictOf(expectedError, tolerance),
    guardBand: expandedUncertainty,
    acceptance: zone(tolerance - expandedUncertainty),
    acceptanceUncorrected: zone(tolerance - expectedError),
  };
}

/** Ten times 0.001 is a little more than 0.01 to a computer. */
const rounding = 1 + 1e-9;

function verdictOf(expectedError: number, tolerance: number): Verdict {
  if (10 * expectedError <= tolerance * rounding) return 'ten-to-one';
  if (4 * expectedError <= tolerance * rounding) return 'four-to-one';
  return expectedError < tolerance ? 'guard-band' : 'cannot';
}

function zone(half: number): number | null {
  return half > 0 ? half : null;
}

/** Probability that the true value lies within the limits, a normal about the measured one (JCGM 106:2012 7.3, 7.4). */
export function conformanceProbability(value: number, limits: Limits, standardUncertainty: number): number {
  const below = (limit: number): number => {
    if (standardUncertainty > 0) return normalProbability((limit - value) / standardUncertainty);
    return value <= limit ? 1 : 0;
  };
  return (
    (limits.upper === null ? 1 : below(limits.upper)) - (limits.lower === null ? 0 : below(limits.lower))
  );
}
