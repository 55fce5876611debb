import { describe, expect, test } from 'vitest';
import {
  chiSquareQuantile,
  fisherQuantile,
  normalProbability,
  normalQuantile,
  studentQuantile,
} from '../../server/probe/quantiles.ts';
import { named, referenceCase } from '../published/referenceCase.ts';

describe('published tables', () => {
  test.each(['QN-0.9', 'QN-0.95', 'QN-0.99'])('normal, %s', (id) => {
    const { inputs, expected } = referenceCase<{ p: number }, { z: number }>(id);
    expect(Math.abs(normalQuantile(inputs.p) - expected.z)).toBeLessThan(1e-6);
  });

  test.each(['QC-1', 'QC-10', 'QC-16', 'QC-30', 'QC-100'])('chi-square, %s', (id) => {
    const { inputs, expected } = referenceCase<{ nu: number; p: number[] }, { q: number[] }>(id);
    inputs.p.forEach((p, index) => {
      const q = expected.q[index] ?? Number.NaN;
      expect(Math.abs(chiSquareQuantile(p, inputs.nu) / q - 1)).toBeLessThan(1e-6);
    });
  });

  const ratio = referenceCase<{ pairs: [number, number][] }, { q: number[] }>('QF-1');
  test(named(ratio), () => {
    ratio.inputs.pairs.forEach(([upper, lower], index) => {
      const q = ratio.expected.q[index] ?? Number.NaN;
      expect(Math.abs(fisherQuantile(0.95, upper, lower) / q - 1)).toBeLessThan(1e-6);
    });
  });

  const half = referenceCase<{ a: number }, { u: number }>('GUM-TB-5050');
  test(`${named(half)}: half of a normal's values lie within a`, () => {
    expect(half.inputs.a / normalQuantile(0.75)).toBeCloseTo(half.expected.u, 9);
  });

  const reliability = referenceCase<{ relative: number[] }, { nu: number[] }>('GUM-REL');
  test(`${named(reliability)}: spread of χ² over its mean`, () => {
    reliability.inputs.relative.forEach((relative, index) => {
      const nu = reliability.expected.nu[index] ?? Number.NaN;
      // A standard deviation's relative spread is, to first order, half of its square's.
      expect(relativeSpreadOfChiSquare(nu) / 2).toBeCloseTo(relative, 3);
    });
  });
});

/** From the quantiles alone, by the midpoint rule. */
function relativeSpreadOfChiSquare(nu: number): number {
  const steps = 20_000;
  let [sum, squares] = [0, 0];
  for (let step = 0; step < steps; step += 1) {
    const q = chiSquareQuantile((step + 0.5) / steps, nu);
    sum += q;
    squares += q * q;
  }
  return Math.sqrt(squares * steps - sum * sum) / sum;
}

describe("Student's t", () => {
  test('at infinite degrees of freedom is the normal', () => {
    expect(studentQuantile(0.975, null)).toBe(normalQuantile(0.975));
    expect(studentQuantile(0.975, Infinity)).toBe(normalQuantile(0.975));
    expect(studentQuantile(0.975, 1e11)).toBeCloseTo(normalQuantile(0.975), 9);
    expect(studentQuantile(0.975, 1e13)).toBe(normalQuantile(0.975));
  });

  test('takes degrees of freedom that are no whole number: between its neighbours', () => {
    const between = studentQuantile(0.975, 16.74);
    expect(between).toBeGreaterThan(studentQuantile(0.975, 17));
    expect(between).toBeLessThan(studentQuantile(0.975, 16));
  });
});

test('probability and quantile undo each other', () => {
  for (const p of [1e-9, 0.025, 0.5, 0.9, 1 - 1e-9])
    expect(normalProbability(normalQuantile(p))).toBeCloseTo(p, 12);
});
