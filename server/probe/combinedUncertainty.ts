import { studentQuantile } from './quantiles.ts';

interface Contribution {
  readonly standardUncertainty: number;
  /** null = infinite. */
  readonly degreesOfFreedom: number | null;
}

/**
 * Root sum of squares of uncorrelated contributions, in their unit, and its effective degrees of freedom by
 * Welch–Satterthwaite (JCGM 100:2008 G.2b), not cut to a whole number; null = infinite.
 */
export function combinedUncertainty(contributions: readonly Contribution[]): Contribution {
  const standardUncertainty = Math.hypot(...contributions.map((part) => part.standardUncertainty));
  if (standardUncertainty === 0) return { standardUncertainty, degreesOfFreedom: null };
  let sum = 0;
  for (const { standardUncertainty: u, degreesOfFreedom: nu } of contributions)
    if (nu !== null) sum += (u / standardUncertainty) ** 4 / nu;
  return { standardUncertainty, degreesOfFreedom: sum === 0 ? null : 1 / sum };
}

/**
 * k of an interval that holds this share of the distribution, two-sided: Student's t (JCGM 100:2008 G.3), which at infinite
 * degrees of freedom (null) is the normal's 1.95996.
 */
export function coverageFactor(degreesOfFreedom: number | null, coverage = 0.95): number {
  return studentQuantile((1 + coverage) / 2, degreesOfFreedom);
}
