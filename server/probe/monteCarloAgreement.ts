import type { ErrorBudget } from './derivedError.ts';
import type { MonteCarloResult } from './monteCarlo.ts';

/** How far the ends of ±U about the linear estimate stand from those of the drawn interval about its mean. */
export interface Agreement {
  /** Drawn less linear, each end outwards, in the unit of both: negative where the linear interval is the wider one. */
  readonly low: number;
  readonly high: number;
  /** Both within the numerical tolerance: the linear interval is validated (JCGM 101:2008 8.1). */
  readonly agrees: boolean;
}

/** Compared about the two estimates, since a seat that may stand anyhow is drawn everywhere and shown in one place. */
export function agreement(drawn: MonteCarloResult, linear: ErrorBudget): Agreement {
  const { mean, numericalTolerance } = drawn;
  const [from, to] = drawn.symmetricInterval;
  const low = mean - from - linear.expandedUncertainty;
  const high = to - mean - linear.expandedUncertainty;
  return { low, high, agrees: Math.max(Math.abs(low), Math.abs(high)) <= numericalTolerance };
}
