import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import {
  blockSize,
  type MonteCarloResult,
  monteCarlo,
  numericalTolerance,
} from '../../server/probe/monteCarlo.ts';
import { randomFrom } from '../../server/probe/monteCarloRandom.ts';
import { normalProbability } from '../../server/probe/quantiles.ts';
import { named, referenceCase } from '../published/referenceCase.ts';

const trials = 200_000;

/** The quantity that this works out from its own draws, drawn so often. */
function draw(once: (random: ReturnType<typeof randomFrom>) => number, count = trials): MonteCarloResult {
  const random = randomFrom(5);
  const sample = (values: Float64Array) => {
    for (let index = 0; index < values.length; index += 1) values[index] = once(random);
  };
  return monteCarlo(sample, { trials: count });
}

describe('published examples', () => {
  interface Interval {
    readonly u: number;
    readonly interval95: readonly [number, number];
  }

  const normals = referenceCase<{ n: number }, Interval>('MC-922');
  test(named(normals), () => {
    const found = draw((random) => random.normal() + random.normal() + random.normal() + random.normal());
    expect(Math.abs(found.standardUncertainty - normals.expected.u)).toBeLessThan(0.02);
    expectInterval(found.symmetricInterval, normals.expected.interval95, 0.03);
    // Where the shortest interval lies is noise for a symmetric quantity; its length is not.
    const [low, high] = found.shortestInterval;
    expect(Math.abs(high - low - 2 * normals.expected.interval95[1])).toBeLessThan(0.04);
  });

  const rectangles = referenceCase<{ u: readonly number[] }, Interval & { gum_interval: readonly number[] }>(
    'MC-924',
  );
  test(`${named(rectangles)}: narrower than the linear interval`, () => {
    const widths = rectangles.inputs.u.map((u) => u * Math.sqrt(3));
    const found = draw((random) =>
      widths.reduce((sum, width) => sum + width * (2 * random.uniform() - 1), 0),
    );
    expect(Math.abs(found.standardUncertainty - rectangles.expected.u)).toBeLessThan(0.05);
    expectInterval(found.symmetricInterval, rectangles.expected.interval95, 0.05);
    expect(found.symmetricInterval[1]).toBeLessThan(rectangles.expected.gum_interval[1] ?? Number.NaN);
  });

  const logarithm = referenceCase<
    { a: number; b: number },
    { exact: { y: number; u: number; shortest95: readonly [number, number] } }
  >('MC-NPL');
  test(`${named(logarithm)}: the shortest interval of a skew quantity`, () => {
    const { a, b } = logarithm.inputs;
    const { y, u, shortest95 } = logarithm.expected.exact;
    const found = draw((random) => Math.log(a + (b - a) * random.uniform()));
    expect(Math.abs(found.mean - y)).toBeLessThan(0.01);
    expect(Math.abs(found.standardUncertainty - u)).toBeLessThan(0.01);
    expectInterval(found.shortestInterval, shortest95, 0.01);
  });

  interface Gauge {
    readonly l_S_nm: number;
    readonly d_nm: number;
    readonly theta_C: number;
    readonly alpha_S_per_C: number;
  }

  const gauge = referenceCase<Gauge, { l_nm: number }>('GUM-H1-y');
  const second = referenceCase<Record<string, number>, { uc_nm: number }>('GUM-H1-2nd');
  test(`${named(gauge)}, and ${named(second)}: drawing has the second-order terms in it`, () => {
    const { l_S_nm, d_nm, theta_C, alpha_S_per_C } = gauge.inputs;
    const { u_delta_alpha = 0, u_theta = 0, u_alpha_S = 0, u_delta_theta = 0 } = second.inputs;
    const found = draw((random) => {
      const wide = () => Math.sqrt(3) * (2 * random.uniform() - 1);
      const length = l_S_nm + 25 * random.normal();
      // Mean and the two comparator components of H.1.
      const difference = d_nm + Math.hypot(5.8, 3.9, 6.7) * random.normal();
      const alpha = alpha_S_per_C + u_alpha_S * wide();
      const theta = theta_C + u_theta * random.normal();
      return length + difference - length * (u_delta_alpha * wide() * theta + alpha * u_delta_theta * wide());
    });
    expect(Math.abs(found.mean - gauge.expected.l_nm)).toBeLessThan(0.5);
    expect(Math.abs(found.standardUncertainty - second.expected.uc_nm)).toBeLessThan(0.25);
  });
});

function expectInterval(found: readonly number[], expected: readonly number[], within: number): void {
  found.forEach((end, index) => {
    expect(Math.abs(end - (expected[index] ?? Number.NaN))).toBeLessThan(within);
  });
}

describe('the adaptive procedure', () => {
  const tolerance = referenceCase<{ u: number; ndig: 1 | 2 }, { delta: number }>('MC-ADAPT-1');
  test(named(tolerance), () => {
    const { u, ndig } = tolerance.inputs;
    expect(numericalTolerance(u, ndig)).toBeCloseTo(tolerance.expected.delta, 15);
    expect(numericalTolerance(0.0998, 2)).toBeCloseTo(0.005, 12);
    expect(numericalTolerance(0, 2)).toBe(0);
  });

  const block = referenceCase<{ p: number }, { M: number }>('MC-ADAPT-3');
  test(named(block), () => {
    expect(blockSize(block.inputs.p)).toBe(block.expected.M);
    expect(blockSize(0.999)).toBe(100_000);
    expect(blockSize(0.995)).toBe(20_000);
  });

  test('stops where mean, uncertainty and interval hold within the tolerance', () => {
    const random = randomFrom(11);
    const found = monteCarlo(
      (values) =>
        values.forEach((_, index) => {
          values[index] = 3 + 0.2 * random.normal();
        }),
      { trials: 'adaptive', digits: 1 },
    );
    expect(found.stable).toBe(true);
    expect(found.numericalTolerance).toBeCloseTo(0.05, 12);
    expect(found.trials % 10_000).toBe(0);
    expect(Math.abs(found.mean - 3)).toBeLessThan(0.05);
    expect(Math.abs(found.symmetricInterval[1] - (3 + 0.2 * 1.95996))).toBeLessThan(0.05);
  });

  test('what does not vary is stable at once', () => {
    const found = monteCarlo((values) => values.fill(7), { trials: 'adaptive' });
    expect(found).toMatchObject({ mean: 7, standardUncertainty: 0, symmetricInterval: [7, 7], stable: true });
  });

  test.each([1, 2, 3, 39])('%d trials give an interval inside of what was drawn', (count) => {
    let next = 0;
    const found = monteCarlo(
      (values) =>
        values.forEach((_, index) => {
          next += 1;
          values[index] = next;
        }),
      { trials: count },
    );
    for (const [low, high] of [found.symmetricInterval, found.shortestInterval]) {
      expect(low).toBeGreaterThanOrEqual(1);
      expect(high).toBeLessThanOrEqual(count);
    }
  });
});

describe('random numbers', () => {
  test('come again for a seed and differ for its neighbour', () => {
    const first = (seed: number) => {
      const random = randomFrom(seed);
      return [random.uniform(), random.normal(), random.chiSquare(3)];
    };
    expect(first(1)).toEqual(first(1));
    expect(Math.abs((first(1)[0] ?? 0) - (first(2)[0] ?? 0))).toBeGreaterThan(1e-6);
  });

  test('the normal is one: shares below z', () => {
    const random = randomFrom(3);
    const values = Array.from({ length: trials }, () => random.normal());
    for (const z of [-2.5, -1, 0, 0.5, 2]) {
      const p = normalProbability(z);
      const share = values.filter((value) => value < z).length / trials;
      expect(Math.abs(share - p)).toBeLessThan(4.5 * Math.sqrt((p * (1 - p)) / trials));
    }
  });

  test.each([0.5, 1, 3, 16])('χ² of %d degrees of freedom has that mean and twice that variance', (nu) => {
    const found = draw((random) => random.chiSquare(nu));
    expect(Math.abs(found.mean - nu)).toBeLessThan(4.5 * Math.sqrt((2 * nu) / trials));
    expect(found.standardUncertainty / Math.sqrt(2 * nu)).toBeCloseTo(1, 1);
  });
});

test('nothing of the linear formula is used', () => {
  const linear =
    /from '\.\/(combinedUncertainty|effectiveRadius|readTouch|uncertaintyComponents|stoppingDistance)\.ts'/;
  const calls = /import \{[^}]*derivedError\b/;
  for (const name of ['monteCarlo', 'monteCarloDerived', 'monteCarloLobes', 'monteCarloRandom']) {
    const text = readFileSync(new URL(`../../server/probe/${name}.ts`, import.meta.url), 'utf8');
    expect(text).not.toMatch(linear);
    expect(text).not.toMatch(calls);
  }
});
