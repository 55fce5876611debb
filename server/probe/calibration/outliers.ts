import { studentQuantile } from '../quantiles.ts';
import { leastSquares, residualSpread } from './leastSquares.ts';

/** Chance that a set of touches without any outlier is said to have one. */
export const outlierSignificance = 0.05;

/** With more of them it is not the touches that are wrong. */
const mostOutliers = 12;

/** What no gauge of a machine tool resolves, mm: a residual under it is rounding, however small the others are. */
const rounding = 1e-6;

/**
 * Indexes of the observations that do not belong to the others. Externally studentised residuals
 * t = e/(s₍ᵢ₎·√(1−h)) against Student's t at significance 0.05/(2n) (Bonferroni; Cook & Weisberg, Residuals and Influence
 * in Regression, 1982, 2.2, from memory). The most extreme one is taken out and the rest tested again, one in four of the
 * degrees of freedom at most; the largest number that still finds one counts, so that two do not hide each other
 * (Rosner's generalised ESD, NIST/SEMATECH e-Handbook 1.3.5.17.3, from memory). Nothing is found with less than two degrees of freedom.
 */
export function outlyingObservations(
  design: readonly (readonly number[])[],
  observed: readonly number[],
): readonly number[] {
  let left = observed.map((_, index) => index);
  const spare = observed.length - (design[0]?.length ?? 0);
  const most = Math.min(mostOutliers, Math.max(1, Math.floor(spare / 4)));
  const taken: number[] = [];
  let found = 0;
  while (taken.length < most) {
    const extreme = mostExtreme(design, observed, left);
    if (extreme === null) break;
    taken.push(extreme.index);
    if (extreme.outlying) found = taken.length;
    left = left.filter((index) => index !== extreme.index);
  }
  return taken.slice(0, found).sort((a, b) => a - b);
}

function mostExtreme(
  design: readonly (readonly number[])[],
  observed: readonly number[],
  left: readonly number[],
): { readonly index: number; readonly outlying: boolean } | null {
  const fit = leastSquares(
    left.map((index) => design[index] ?? []),
    left.map((index) => observed[index] ?? 0),
  );
  const spread = residualSpread(fit);
  const freedom = fit.degreesOfFreedom - 1;
  if (spread === null || freedom < 1) return null;
  const sum = spread ** 2 * fit.degreesOfFreedom;
  let best: { index: number; studentised: number; residual: number } | null = null;
  for (const [at, index] of left.entries()) {
    const free = 1 - (fit.leverages[at] ?? 1);
    // It alone fixes an unknown: nothing is left to test it by.
    if (free < 1e-6) continue;
    const residual = fit.residuals[at] ?? 0;
    const without = Math.max(0, sum - residual ** 2 / free) / freedom;
    const studentised = Math.abs(residual) / Math.sqrt(Math.max(without, 1e-30) * free);
    if (best === null || studentised > best.studentised)
      best = { index, studentised, residual: residual / free };
  }
  if (best === null) return null;
  const limit = studentQuantile(1 - outlierSignificance / (2 * left.length), freedom);
  return { index: best.index, outlying: best.studentised > limit && Math.abs(best.residual) > rounding };
}
