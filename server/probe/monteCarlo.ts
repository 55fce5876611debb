/** What drawing says about a quantity, in its unit (JCGM 101:2008). */
export interface MonteCarloResult {
  readonly trials: number;
  readonly mean: number;
  readonly standardUncertainty: number;
  /** Between the quantiles (1 − p)/2 and (1 + p)/2: probabilistically symmetric. */
  readonly symmetricInterval: readonly [number, number];
  /** The shortest that holds the share p. */
  readonly shortestInterval: readonly [number, number];
  /** Half of the last digit of the uncertainty that counts; 0 where nothing varies. */
  readonly numericalTolerance: number;
  /** Mean, uncertainty and ends of the interval hold within the tolerance; null where the number of trials was given. */
  readonly stable: boolean | null;
}

export interface MonteCarloOptions {
  /** 'adaptive': until the results are stable, at most `mostTrials`. */
  readonly trials: number | 'adaptive';
  /** Share p of the coverage intervals; 0.95 where it is left out. */
  readonly coverage?: number;
  /** Digits of the standard uncertainty that are to hold; 2 where it is left out. */
  readonly digits?: 1 | 2;
}

/** Fills an array with independent draws of a quantity. */
export type Sampler = (values: Float64Array) => void;

/** More than these are not drawn: 32 MB of numbers. */
export const mostTrials = 4_000_000;

/** Draws a quantity: a given number of times, or block by block until the results are stable (JCGM 101:2008 7.9.4). */
export function monteCarlo(sample: Sampler, options: MonteCarloOptions): MonteCarloResult {
  const { trials, coverage = 0.95, digits = 2 } = options;
  if (trials === 'adaptive') return adaptive(sample, coverage, digits);
  const values = new Float64Array(trials);
  sample(values);
  return { ...summary(values, coverage, digits), stable: null };
}

/** δ of a standard uncertainty written with this many digits: u = c·10^l, δ = ½·10^l (JCGM 101:2008 7.9.2). */
export function numericalTolerance(standardUncertainty: number, digits: 1 | 2): number {
  if (!(standardUncertainty > 0)) return 0;
  // The rounded notation carries, as 0.0996 does to 1.0e-1.
  const exponent = Number(standardUncertainty.toExponential(digits - 1).split('e')[1]);
  return 0.5 * 10 ** (exponent - digits + 1);
}

/** Trials in one block: 100/(1 − p), at least 10⁴ (JCGM 101:2008 7.9.4 b). */
export function blockSize(coverage: number): number {
  // (1 − 0.95) is a little more than 0.05.
  return Math.max(Math.ceil(100 / (1 - coverage) - 1e-9), 10_000);
}

/** The standard asks for two blocks; two may agree by chance, ten hardly. */
const fewestBlocks = 10;

function adaptive(sample: Sampler, coverage: number, digits: 1 | 2): MonteCarloResult {
  const size = blockSize(coverage);
  const most = Math.floor(mostTrials / size);
  const values = new Float64Array(most * size);
  const blocks: number[][] = [];
  let stable = false;
  while (blocks.length < most && !stable) {
    const from = blocks.length * size;
    const block = values.subarray(from, from + size);
    sample(block);
    const { mean, standardUncertainty, symmetricInterval } = summary(block.slice(), coverage, digits);
    blocks.push([mean, standardUncertainty, ...symmetricInterval]);
    if (blocks.length >= fewestBlocks) stable = agree(blocks, digits);
  }
  return { ...summary(values.slice(0, blocks.length * size), coverage, digits), stable };
}

/** Twice the standard deviation of the mean over the blocks stays within the tolerance, for each of the four results. */
function agree(blocks: readonly (readonly number[])[], digits: 1 | 2): boolean {
  const count = blocks.length;
  const average = (of: number): number => blocks.reduce((sum, block) => sum + (block[of] ?? 0), 0) / count;
  const tolerance = numericalTolerance(average(1), digits);
  return [0, 1, 2, 3].every((of) => {
    const mean = average(of);
    const squares = blocks.reduce((sum, block) => sum + ((block[of] ?? 0) - mean) ** 2, 0);
    return 2 * Math.sqrt(squares / (count * (count - 1))) <= tolerance;
  });
}

/** Sorts the values in place. */
function summary(values: Float64Array, coverage: number, digits: 1 | 2): Omit<MonteCarloResult, 'stable'> {
  values.sort();
  const { mean, standardUncertainty } = moments(values);
  return {
    trials: values.length,
    mean,
    standardUncertainty,
    ...intervals(values, coverage),
    numericalTolerance: numericalTolerance(standardUncertainty, digits),
  };
}

function moments(values: Float64Array): { mean: number; standardUncertainty: number } {
  const pivot = values[values.length >> 1] ?? Number.NaN;
  let sum = 0;
  let squares = 0;
  for (let index = 0; index < values.length; index += 1) {
    const off = (values[index] as number) - pivot;
    sum += off;
    squares += off * off;
  }
  const count = values.length;
  const variance = count > 1 ? (squares - (sum * sum) / count) / (count - 1) : 0;
  return { mean: pivot + sum / count, standardUncertainty: Math.sqrt(Math.max(variance, 0)) };
}

/** JCGM 101:2008 7.7 on sorted values. */
function intervals(
  sorted: Float64Array,
  coverage: number,
): Pick<MonteCarloResult, 'symmetricInterval' | 'shortestInterval'> {
  const count = sorted.length;
  const held = Math.min(Math.round(coverage * count), count - 1);
  const at = (index: number): number => sorted[index] ?? Number.NaN;
  const low = Math.floor((count - held) / 2);
  let shortest = 0;
  for (let from = 1; from + held < count; from += 1)
    if (at(from + held) - at(from) < at(shortest + held) - at(shortest)) shortest = from;
  const first = Math.min(low, count - 1 - held);
  return {
    symmetricInterval: [at(first), at(first + held)],
    shortestInterval: [at(shortest), at(shortest + held)],
  };
}
