import type { FitQuality } from './fit.ts';

/**
 * The quality of a fit from its residuals, in the points' unit, and (JᵀJ)⁻¹ of its parameters, in their units: s² times it is
 * their covariance.
 */
export function qualityOf(
  residuals: readonly number[],
  inverseNormal: readonly (readonly number[])[],
  condition: number,
  cautions: readonly string[],
): FitQuality {
  const degreesOfFreedom = residuals.length - inverseNormal.length;
  const squares = residuals.reduce((sum, residual) => sum + residual * residual, 0);
  const variance = degreesOfFreedom > 0 ? squares / degreesOfFreedom : null;
  return {
    residuals,
    form:
      residuals.reduce((most, each) => Math.max(most, each)) -
      residuals.reduce((least, each) => Math.min(least, each)),
    standardDeviation: variance === null ? null : Math.sqrt(variance),
    degreesOfFreedom,
    covariance: variance === null ? null : inverseNormal.map((row) => row.map((value) => value * variance)),
    condition,
    cautions,
  };
}

/** J·C·Jᵀ, the law of propagation with correlations (JCGM 100:2008 5.2.2); a row of `sensitivities` for each result. */
export function propagated(
  covariance: readonly (readonly number[])[],
  sensitivities: readonly (readonly number[])[],
): number[][] {
  const times = (row: readonly number[], other: readonly number[]): number =>
    row.reduce(
      (sum, value, i) =>
        sum + value * (covariance[i] ?? []).reduce((inner, cell, j) => inner + cell * (other[j] ?? 0), 0),
      0,
    );
  return sensitivities.map((row) => sensitivities.map((other) => times(row, other)));
}
