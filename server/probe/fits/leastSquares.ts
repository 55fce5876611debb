import { SVD } from 'ml-matrix';

/** A linear least-squares solution. */
export interface LeastSquares {
  readonly solution: readonly number[];
  /** observed − fitted. */
  readonly residuals: readonly number[];
  /** (XᵀX)⁻¹: times s² the covariance of the solution. */
  readonly inverseNormal: readonly (readonly number[])[];
  /** Condition number with the columns scaled to unit length; Infinity where they depend on each other. */
  readonly condition: number;
}

/**
 * Least squares of X·b = y by singular values, columns scaled to unit length first, so that units of the columns do not matter.
 * Where columns depend on each other the shortest scaled solution is given and the condition is Infinity.
 */
export function leastSquares(
  design: readonly (readonly number[])[],
  observed: readonly number[],
): LeastSquares {
  const columns = design[0]?.length ?? 0;
  const lengths = Array.from({ length: columns }, (_, column) => {
    const length = Math.sqrt(design.reduce((sum, row) => sum + (row[column] ?? 0) ** 2, 0));
    return length === 0 ? 1 : length;
  });
  const rows = design.map((row) => row.map((value, column) => value / (lengths[column] ?? 1)));
  while (rows.length < columns) rows.push(new Array(columns).fill(0));
  const { diagonal, leftSingularVectors, rightSingularVectors } = new SVD(rows);
  const [largest = 0, smallest = 0] = [diagonal[0], diagonal.at(-1)];
  const negligible = largest * Number.EPSILON * rows.length;
  const scaled = new Array<number>(columns).fill(0);
  const inverseNormal = lengths.map(() => new Array<number>(columns).fill(0));
  diagonal.forEach((value, index) => {
    if (value <= negligible) return;
    const along = observed.reduce((sum, y, row) => sum + y * leftSingularVectors.get(row, index), 0) / value;
    const direction = lengths.map((length, column) => rightSingularVectors.get(column, index) / length);
    direction.forEach((part, column) => {
      scaled[column] = (scaled[column] ?? 0) + along * part;
      direction.forEach((other, second) => {
        const cells = inverseNormal[column] as number[];
        cells[second] = (cells[second] ?? 0) + (part * other) / value ** 2;
      });
    });
  });
  return {
    solution: scaled,
    residuals: design.map(
      (row, index) =>
        (observed[index] ?? 0) - row.reduce((sum, value, column) => sum + value * (scaled[column] ?? 0), 0),
    ),
    inverseNormal,
    condition: smallest <= negligible ? Infinity : largest / smallest,
  };
}
