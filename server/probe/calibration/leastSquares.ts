import { leastSquares as bySingularValues } from '../fits/leastSquares.ts';

export interface LeastSquares {
  readonly parameters: readonly number[];
  /** Observed − fitted. */
  readonly residuals: readonly number[];
  /** Observations − parameters. */
  readonly degreesOfFreedom: number;
  /** (XᵀX)⁻¹: times the variance of an observation it is the covariance of the parameters. */
  readonly inverse: readonly (readonly number[])[];
  /** Share of each observation in its own fitted value: the diagonal of X·(XᵀX)⁻¹·Xᵀ. */
  readonly leverages: readonly number[];
}

/**
 * min ‖X·p − y‖; `design` has a row for each observation and at least as many rows as columns. Columns that depend on
 * each other tell no parameters: ask `conditionNumber` first.
 */
export function leastSquares(
  design: readonly (readonly number[])[],
  observed: readonly number[],
): LeastSquares {
  const columns = design[0]?.length ?? 0;
  if (design.length < columns || columns === 0) throw new Error('Fewer observations than unknowns.');
  const { solution, residuals, inverseNormal } = bySingularValues(design, observed);
  return {
    parameters: solution,
    residuals,
    degreesOfFreedom: design.length - columns,
    inverse: inverseNormal,
    leverages: design.map((row) =>
      dot(
        row,
        inverseNormal.map((line) => dot(line, row)),
      ),
    ),
  };
}

/** Largest over smallest singular value of the columns scaled to unit length; infinite where they depend on each other. */
export function conditionNumber(design: readonly (readonly number[])[]): number {
  const columns = design[0]?.length ?? 0;
  if (design.length < columns) return Infinity;
  const { condition } = bySingularValues(
    design,
    design.map(() => 0),
  );
  return condition > 1e12 ? Infinity : condition;
}

/** Whether the columns stand far enough from depending on each other for the algebra; not whether they tell much. */
export function isSolvable(design: readonly (readonly number[])[]): boolean {
  return conditionNumber(design) < 1e7;
}

/** Root of the sum of squares over the degrees of freedom; null where there are none. */
export function residualSpread({ residuals, degreesOfFreedom }: LeastSquares): number | null {
  return degreesOfFreedom > 0 ? Math.sqrt(dot(residuals, residuals) / degreesOfFreedom) : null;
}

export function dot(a: readonly number[], b: readonly number[]): number {
  let sum = 0;
  for (const [index, value] of a.entries()) sum += value * (b[index] ?? 0);
  return sum;
}
