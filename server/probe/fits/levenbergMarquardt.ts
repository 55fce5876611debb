import { type LeastSquares, leastSquares } from './leastSquares.ts';

/** Residuals (to be made small) and their derivatives by the parameters, a row a residual. */
export interface Linearised {
  readonly residuals: readonly number[];
  readonly jacobian: readonly (readonly number[])[];
}

export interface Minimum {
  readonly parameters: readonly number[];
  readonly residuals: readonly number[];
  /** Of the linear problem at the minimum. */
  readonly linear: LeastSquares;
  readonly converged: boolean;
}

/**
 * Least squares of a smooth problem from a start (Levenberg, Quarterly of Applied Mathematics 2 (1944) 164–168; Marquardt, J. SIAM 11
 * (1963) 431–441). The parameters are to be of the order of 1: the steps stop where none moves one by more than 1e-12.
 */
export function levenbergMarquardt(
  start: readonly number[],
  linearise: (parameters: readonly number[]) => Linearised,
): Minimum {
  let parameters = start;
  let here = linearise(parameters);
  let damping = 1e-4;
  let converged = false;
  for (let round = 0; round < 200 && !converged; round += 1) {
    const step = dampedStep(here, damping);
    const next = parameters.map((value, index) => value + (step[index] ?? 0));
    const there = linearise(next);
    const small = step.every((part) => Math.abs(part) < 1e-12);
    // Near the minimum sums differ by rounding alone; the steps still tell how far it is.
    if (sumOfSquares(there.residuals) <= sumOfSquares(here.residuals) * (1 + 1e-12)) {
      parameters = next;
      here = there;
      damping /= 10;
      converged = small;
    } else {
      converged = small || damping > 1e12;
      damping *= 10;
    }
  }
  const linear = leastSquares(here.jacobian, here.residuals);
  return { parameters, residuals: here.residuals, linear, converged };
}

function dampedStep({ residuals, jacobian }: Linearised, damping: number): readonly number[] {
  const count = jacobian[0]?.length ?? 0;
  const extra = Array.from({ length: count }, (_, column) => {
    const length = Math.sqrt(jacobian.reduce((sum, each) => sum + (each[column] ?? 0) ** 2, 0));
    const row = new Array<number>(count).fill(0);
    row[column] = Math.sqrt(damping) * (length === 0 ? 1 : length);
    return row;
  });
  const wanted = [...residuals.map((value) => -value), ...extra.map(() => 0)];
  return leastSquares([...jacobian, ...extra], wanted).solution;
}

function sumOfSquares(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value * value, 0);
}
