import { Matrix, QrDecomposition, SingularValueDecomposition } from 'ml-matrix';

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
 * min ‖X·p − y‖ by QR on columns of unit length; `design` has a row for each observation and at least as many rows as
 * columns. Columns that depend on each other are a mistake of the caller: ask `conditionNumber` first.
 */
export function leastSquares(
  design: readonly (readonly number[])[],
  observed: readonly number[],
): LeastSquares {
  const columns = design[0]?.length ?? 0;
  if (design.length < columns || columns === 0) throw new Error('Fewer observations than unknowns.');
  const lengths = columnLengths(design);
  const qr = new QrDecomposition(scaled(design, lengths));
  const solution = qr.solve(Matrix.columnVector([...observed])).to1DArray();
  const parameters = solution.map((value, index) => value / (lengths[index] ?? 1));
  const inverseOfR = qr.upperTriangularMatrix.subMatrix(0, columns - 1, 0, columns - 1);
  const triangle = new QrDecomposition(inverseOfR).solve(Matrix.eye(columns));
  const inverse = triangle
    .mmul(triangle.transpose())
    .to2DArray()
    .map((row, i) => row.map((value, j) => value / ((lengths[i] ?? 1) * (lengths[j] ?? 1))));
  return {
    parameters,
    residuals: design.map((row, index) => (observed[index] ?? 0) - dot(row, parameters)),
    degreesOfFreedom: design.length - columns,
    inverse,
    leverages: qr.orthogonalMatrix.to2DArray().map((row) => dot(row, row)),
  };
}

/** Largest over smallest singular value of the columns scaled to unit length; infinite where they depend on each other. */
export function conditionNumber(design: readonly (readonly number[])[]): number {
  const columns = design[0]?.length ?? 0;
  if (design.length < columns) return Infinity;
  const lengths = columnLengths(design);
  if (lengths.some((length) => length <= 1e-12)) return Infinity;
  const values = new SingularValueDecomposition(scaled(design, lengths)).diagonal;
  const [largest, least] = [Math.max(...values), Math.min(...values)];
  return least <= 1e-12 * largest ? Infinity : largest / least;
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

function columnLengths(design: readonly (readonly number[])[]): number[] {
  return (design[0] ?? []).map((_, column) => Math.hypot(...design.map((row) => row[column] ?? 0)));
}

function scaled(design: readonly (readonly number[])[], lengths: readonly number[]): Matrix {
  return new Matrix(design.map((row) => row.map((value, index) => value / (lengths[index] || 1))));
}
