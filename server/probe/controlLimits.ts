/** Within which single values of one process keep, in their unit. */
export interface ControlLimits {
  readonly mean: number;
  /** Mean of the differences between neighbours in time. */
  readonly movingRange: number;
  readonly lower: number;
  readonly upper: number;
  /** What a single difference keeps under. */
  readonly rangeUpper: number;
}

/** Chart of individuals and moving ranges (NIST/SEMATECH e-Handbook 6.3.2.2), values in the order of time; null for fewer than two. */
export function controlLimits(values: readonly number[]): ControlLimits | null {
  if (values.length < 2) return null;
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const ranges = values.slice(1).map((value, index) => Math.abs(value - (values[index] ?? Number.NaN)));
  const movingRange = ranges.reduce((sum, range) => sum + range, 0) / ranges.length;
  const reach = (3 * movingRange) / meanRangeOfTwo;
  return {
    mean,
    movingRange,
    lower: mean - reach,
    upper: mean + reach,
    rangeUpper: rangeLimitOfTwo * movingRange,
  };
}

/** d₂ and D₄ for two values, as the handbook has them. */
const meanRangeOfTwo = 1.128;
const rangeLimitOfTwo = 3.267;
