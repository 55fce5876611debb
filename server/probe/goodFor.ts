import type { ErrorBudget } from './derivedError.ts';

/** Which tolerances a measurement can decide, mm; all are ±, half of the tolerance's width. */
export interface GoodFor {
  /** Ten times the expected error: the gauge-maker's ten-to-one (common practice, no single source). */
  readonly tenToOne: number;
  /** Four times: the relaxed ratio (common practice, no single source). */
  readonly fourToOne: number;
  /** What to stay inside a limit by: the expanded uncertainty (ISO 14253-1, default rule; from memory). */
  readonly guardBand: number;
}

/** null where the bias, and with it the expected error, is unknown. */
export function goodFor(budget: ErrorBudget): GoodFor | null {
  if (budget.expectedError === null) return null;
  return {
    tenToOne: tenToOne(budget.expectedError),
    fourToOne: 4 * budget.expectedError,
    guardBand: budget.expandedUncertainty,
  };
}

export function tenToOne(expectedError: number): number {
  return 10 * expectedError;
}

/** Limits of a specification, in the unit of the value; null: one-sided. */
export interface Limits {
  readonly lower: number | null;
  readonly upper: number | null;
}

/**
 * Decides by ISO 14253-1's default rule (from memory): conforming inside the limits by at least U, not conforming
 * outside by at least U, undecided between. On a boundary, within rounding, the decision is made.
 */
export function decide(
  value: number,
  limits: Limits,
  expandedUncertainty: number,
): 'conforms' | 'does-not-conform' | 'undecided' {
  const below = limits.lower === null ? Infinity : value - limits.lower;
  const above = limits.upper === null ? Infinity : limits.upper - value;
  const inside = Math.min(below, above);
  const rounding = 1e-12 * Math.max(1, Math.abs(value));
  if (inside >= expandedUncertainty - rounding) return 'conforms';
  if (inside <= -expandedUncertainty + rounding) return 'does-not-conform';
  return 'undecided';
}
