import { Matrix, solve as solveLinear } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import { type Calibration, calibrate } from '../../../server/probe/calibration/calibrate.ts';
import type { CalibrationTouch, Reference } from '../../../server/probe/calibration/touches.ts';
import { noise } from './noise.ts';
import { evenly, type Truth, touched } from './touched.ts';

const lobes = [{ order: 3, cosine: 0.003, sine: -0.002 }];
const both = ['ring', 'plug'] as const;

function calibrated(
  touches: readonly CalibrationTouch[],
  { kind = 'ring', size = 25 }: Truth = {},
  changes: { orders?: readonly number[]; uncertainty?: number; stated?: number } = {},
): Calibration {
  const reference: Reference = { kind, size, expandedUncertainty: changes.uncertainty ?? 0 };
  const result = calibrate(touches, reference, {
    orders: changes.orders ?? [3],
    tipDiameter: 4,
    repeatability:
      changes.stated === undefined ? null : { standardDeviation: changes.stated, degreesOfFreedom: null },
  });
  if ('kind' in result) throw new Error(result.kind);
  return result;
}

describe('exact touches give the truth back', () => {
  test.each(both)('on a %s, with lobes', (kind) => {
    const result = calibrated(touched({ kind, lobes }, evenly(12, 7)), { kind });
    expect(result.effectiveDiameter).toBeCloseTo(3.96, 10);
    expect(result.centre[0]).toBeCloseTo(3, 10);
    expect(result.centre[1]).toBeCloseTo(-1, 10);
    expect(result.meanPreTravel).toBeCloseTo(0.02, 10);
    expect(result.harmonics).toHaveLength(1);
    expect(result.harmonics[0]?.cosine).toBeCloseTo(0.003, 10);
    expect(result.harmonics[0]?.sine).toBeCloseTo(-0.002, 10);
    expect(result.preTravelVariation).toBeCloseTo(2 * Math.hypot(0.003, 0.002), 9);
    expect(result).toMatchObject({ notObservable: [], outliers: [], degreesOfFreedom: 7, settled: true });
  });

  test.each(both)('on a %s at two feeds: the latency, and the diameter at the first feed', (kind) => {
    const layout = evenly(8).flatMap((each) => [
      { ...each, speed: 1 },
      { ...each, speed: 5 },
    ]);
    const result = calibrated(touched({ kind, lobes, latency: 0.002 }, layout), { kind });
    expect(result.latency?.value).toBeCloseTo(0.002, 10);
    expect(result.effectiveDiameter).toBeCloseTo(3.96, 10);
    expect(result.speed).toBe(1);
  });

  test.each(both)('on a %s at two spindle angles: run-out apart from the centre', (kind) => {
    const runout = [{ order: 1, cosine: 0.006, sine: 0.001 }, ...lobes];
    const layout = [0, 180].flatMap((spindle) => evenly(7).map((each) => ({ ...each, spindle })));
    const result = calibrated(touched({ kind, lobes: runout }, layout), { kind });
    expect(result.centre[0]).toBeCloseTo(3, 10);
    expect(result.harmonics.map(({ order }) => order)).toEqual([1, 3]);
    expect(result.harmonics[0]?.cosine).toBeCloseTo(0.006, 10);
    expect(result.harmonics[1]?.sine).toBeCloseTo(-0.002, 10);
    expect(result.spindle).toBe(0);
  });

  test('reversal with four directions frees the centre of run-out and of odd lobes, though these stay one', () => {
    const runout = [
      { order: 1, cosine: 0.006, sine: 0 },
      { order: 3, cosine: 0.004, sine: 0 },
    ];
    const layout = [0, 180].flatMap((spindle) => evenly(4).map((each) => ({ ...each, spindle })));
    const result = calibrated(touched({ lobes: runout }, layout));
    expect(result.centre[0]).toBeCloseTo(3, 5);
    expect(result.centre[1]).toBeCloseTo(-1, 5);
    expect(result.effectiveDiameter).toBeCloseTo(3.96, 5);
    expect(result.notObservable.map(({ order }) => order)).toEqual([3]);
    expect(result.notObservable[0]?.intoCentre).toBeCloseTo(0, 12);
    expect(result.notObservable[0]?.intoOrders[0]?.share).toBeCloseTo(1, 12);
    // The four directions see cos 3θ as cos θ (error-model.md, section 3).
    expect(result.harmonics[0]?.cosine).toBeCloseTo(0.01, 5);
  });

  test('commanded directions may be off: the touch goes where the surface is', () => {
    const touches = touched({ lobes }, evenly(12)).map((touch, index) => ({
      ...touch,
      direction: touch.direction + (index % 3) * 2,
    }));
    expect(calibrated(touches).effectiveDiameter).toBeCloseTo(3.96, 9);
  });
});

describe('a straightforward search agrees', () => {
  test('minimum of the squared residuals by normal equations and a search over the centre', () => {
    const next = noise(4, 0.001);
    const touches = touched({ lobes, noise: next }, evenly(9, 3));
    const result = calibrated(touches);
    const [x, y] = nearestCentre(touches, 25);
    expect(result.centre[0]).toBeCloseTo(x, 6);
    expect(result.centre[1]).toBeCloseTo(y, 6);
    expect(result.effectiveDiameter / 2).toBeCloseTo(linear(touches, 25, [x, y]).radius, 6);
    expect(result.residualStandardDeviation).toBeCloseTo(Math.sqrt(linear(touches, 25, [x, y]).sum / 4), 8);
  });
});

/** Radius and lobes for a fixed centre, by the normal equations. */
function linear(touches: readonly CalibrationTouch[], size: number, [cx, cy]: readonly [number, number]) {
  const rows = touches.map(({ x, y }) => {
    const angle = Math.atan2(y - cy, x - cx);
    return [1, Math.cos(3 * angle), Math.sin(3 * angle)];
  });
  const seen = touches.map(({ x, y }) => size / 2 - Math.hypot(x - cx, y - cy));
  const X = new Matrix(rows);
  const found = solveLinear(X.transpose().mmul(X), X.transpose().mmul(Matrix.columnVector(seen))).to1DArray();
  const residuals = seen.map(
    (value, index) => value - (rows[index] ?? []).reduce((sum, part, at) => sum + part * (found[at] ?? 0), 0),
  );
  return { radius: found[0] ?? 0, sum: residuals.reduce((sum, value) => sum + value * value, 0) };
}

/** Coordinate search with a step that halves: slow, and no algebra in common with the fit. */
function nearestCentre(touches: readonly CalibrationTouch[], size: number): readonly [number, number] {
  let best: [number, number] = [2.9, -1.1];
  for (let step = 0.1; step > 1e-8; step /= 2) {
    for (let moved = true; moved; ) {
      moved = false;
      for (const [dx, dy] of [
        [1, 0],
        [-1, 0],
        [0, 1],
        [0, -1],
      ] as const) {
        const next: [number, number] = [best[0] + dx * step, best[1] + dy * step];
        if (linear(touches, size, next).sum >= linear(touches, size, best).sum) continue;
        best = next;
        moved = true;
      }
    }
  }
  return best;
}

describe('uncertainty', () => {
  test('of twelve even touches is 2s/√12 and that of the ring', () => {
    const result = calibrated(
      touched({ lobes, noise: noise(8, 0.001) }, evenly(12)),
      {},
      { uncertainty: 0.002 },
    );
    const s = result.residualStandardDeviation ?? NaN;
    expect(result.uncertainty?.standardUncertainty).toBeCloseTo(
      Math.hypot((2 * s) / Math.sqrt(12), 0.001),
      8,
    );
    expect(result.uncertainty?.spreadFrom).toBe('touches');
  });

  test('covers: the scatter of D_eff over many calibrations is the stated u (JCGM 101 by hand)', () => {
    const next = noise(21, 0.001);
    const runs = 250;
    let [squares, stated, covered] = [0, 0, 0];
    for (let run = 0; run < runs; run += 1) {
      const result = calibrated(touched({ lobes, noise: next }, evenly(9)));
      const error = result.effectiveDiameter - 3.96;
      squares += error ** 2;
      stated += (result.uncertainty?.standardUncertainty ?? NaN) ** 2;
      if (Math.abs(error) <= (result.uncertainty?.expandedUncertainty ?? NaN)) covered += 1;
    }
    expect(Math.sqrt(squares / stated)).toBeGreaterThan(0.9);
    expect(Math.sqrt(squares / stated)).toBeLessThan(1.1);
    // 95 % within four standard deviations of a binomial of 250.
    expect(covered / runs).toBeGreaterThan(0.95 - 4 * Math.sqrt((0.95 * 0.05) / runs));
    expect(covered / runs).toBeLessThanOrEqual(1);
  });

  test('rests on the stated repeatability where no degrees of freedom are left, else there is none', () => {
    const touches = touched({}, evenly(3));
    expect(calibrated(touches).uncertainty).toBeNull();
    expect(calibrated(touches, {}, { stated: 0.003 }).uncertainty).toMatchObject({ spreadFrom: 'stated' });
    expect(calibrated(touches, {}, { stated: 0.003 }).uncertainty?.standardUncertainty).toBeCloseTo(
      (2 * 0.003) / Math.sqrt(3),
      9,
    );
    expect(calibrated(touches).residualStandardDeviation).toBeNull();
  });
});

describe('repeated touches', () => {
  const layout = evenly(5).flatMap((each) => [each, each, each]);

  test('give the repeatability with its own degrees of freedom', () => {
    const next = noise(5, 0.001);
    const result = calibrated(touched({ lobes, noise: next }, layout));
    expect(result.repeatability?.degreesOfFreedom).toBe(10);
    expect(result.repeatability?.standardDeviation).toBeGreaterThan(0.0005);
    expect(result.repeatability?.standardDeviation).toBeLessThan(0.002);
  });

  test('tell when the residuals hold more: lobes that the fit does not have', () => {
    const eight = evenly(8).flatMap((each) => [each, each, each]);
    const plain = calibrated(touched({ lobes, noise: noise(6, 0.0005) }, eight));
    expect(plain.modelLacks).toBe(false);
    const more = [...lobes, { order: 2, cosine: 0.004, sine: 0 }];
    expect(calibrated(touched({ lobes: more, noise: noise(6, 0.0005) }, eight)).modelLacks).toBe(true);
  });
});

describe('outliers', () => {
  const off = (rows: readonly number[], error: number) => {
    const next = noise(7, 0.0005);
    return touched({ lobes, noise: (index) => next() + (rows.includes(index + 2) ? error : 0) }, evenly(16));
  };

  test('are named and stay in the result', () => {
    const result = calibrated(off([6], 0.01));
    expect(result.outliers).toEqual([6]);
    expect(result.directions).toHaveLength(16);
    expect(result.effectiveDiameter).not.toBeCloseTo(3.96, 4);
  });

  test('two do not hide each other', () => {
    expect(calibrated(off([4, 11], 0.01)).outliers).toEqual([4, 11]);
  });

  test('are rare where there are none: about one set in twenty', () => {
    const next = noise(12, 0.001);
    let sets = 0;
    for (let run = 0; run < 300; run += 1)
      if (calibrated(touched({ lobes, noise: next }, evenly(12))).outliers.length > 0) sets += 1;
    expect(sets / 300).toBeLessThan(0.05 + 4 * Math.sqrt((0.05 * 0.95) / 300));
    expect(sets).toBeGreaterThan(0);
  });

  test('exact touches have none', () => {
    expect(calibrated(touched({ lobes }, evenly(16))).outliers).toEqual([]);
  });
});

describe('what cannot be solved is refused', () => {
  const ring: Reference = { kind: 'ring', size: 25, expandedUncertainty: 0 };
  const options = { orders: [3], tipDiameter: 4, repeatability: null };

  test('two touches', () => {
    expect(calibrate(touched({}, evenly(2)), ring, options)).toEqual({
      kind: 'too-few',
      touches: 2,
      needed: 3,
    });
  });

  test('touches on one side', () => {
    const side = [0, 4, 8, 12, 16, 20].map((direction) => ({ direction }));
    expect(calibrate(touched({}, side), ring, options)).toMatchObject({ kind: 'one-sided' });
  });
});
