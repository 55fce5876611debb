import { describe, expect, test } from 'vitest';
import { conformanceProbability, decision } from '../../server/probe/decision.ts';
import { derivedError, type ErrorBudget } from '../../server/probe/derivedError.ts';
import { decide } from '../../server/probe/goodFor.ts';
import { named, referenceCase } from '../published/referenceCase.ts';
import { aProbe } from './aProbe.ts';
import { derived, touch } from './aTouch.ts';

const budget = (bias: number, expandedUncertainty: number): ErrorBudget => ({
  ...derivedError(aProbe(), derived([touch(1, 'x', 1)], 0.5)),
  bias,
  expandedUncertainty,
  expectedError: Math.abs(bias) + expandedUncertainty,
});

describe('which ratio a tolerance has', () => {
  test.each([
    [0.01, 'ten-to-one', 10],
    [0.0099, 'four-to-one', 9.9],
    [0.004, 'four-to-one', 4],
    [0.0039, 'guard-band', 3.9],
    [0.0011, 'guard-band', 1.1],
    [0.001, 'cannot', 1],
    [0.0005, 'cannot', 0.5],
  ])('±%d is %s', (tolerance, verdict, ratio) => {
    const found = decision(budget(0.0004, 0.0006), tolerance);
    expect(found?.verdict).toBe(verdict);
    expect(found?.ratio).toBeCloseTo(ratio, 9);
  });

  const gauge = referenceCase<{ tolerance_in: number }, { each: number }>('DEC-10');
  test(`${named(gauge)}: the gauge of that size decides the tolerance at ten to one, and one a hundredth larger does not`, () => {
    const half = gauge.inputs.tolerance_in / 2;
    expect(decision(budget(0, gauge.expected.each), half)?.verdict).toBe('ten-to-one');
    expect(decision(budget(0, 1.01 * gauge.expected.each), half)?.verdict).toBe('four-to-one');
  });
});

describe('the zone that is accepted', () => {
  const zone = referenceCase<{ LSL: number; USL: number; U: number }, { accept: readonly [number, number] }>(
    'DEC-1',
  );
  test(named(zone), () => {
    const { LSL, USL, U } = zone.inputs;
    const found = decision(budget(0, U), (USL - LSL) / 2);
    const nominal = (USL + LSL) / 2;
    expect(nominal - (found?.acceptance ?? NaN)).toBeCloseTo(zone.expected.accept[0], 9);
    expect(nominal + (found?.acceptance ?? NaN)).toBeCloseTo(zone.expected.accept[1], 9);
    expect(decide(nominal + (found?.acceptance ?? NaN), { lower: LSL, upper: USL }, U)).toBe('conforms');
  });

  test('is narrower by the bias where that is left in, and gone where U is as wide as the tolerance', () => {
    expect(decision(budget(-0.002, 0.004), 0.02)).toMatchObject({
      guardBand: 0.004,
      acceptance: 0.016,
      acceptanceUncorrected: 0.014,
    });
    expect(decision(budget(0.02, 0.004), 0.004)).toMatchObject({
      acceptance: null,
      acceptanceUncorrected: null,
    });
  });

  test('an error of nothing has no ratio; one that is not known no decision', () => {
    expect(decision(budget(0, 0), 0.01)).toMatchObject({ ratio: null, verdict: 'ten-to-one' });
    expect(decision({ ...budget(0, 0), bias: null, expectedError: null }, 0.01)).toBeNull();
  });
});

describe('probability of conforming', () => {
  interface Measured {
    readonly y: number;
    readonly u: number;
    readonly T_L?: number;
    readonly T_U: number;
  }

  for (const id of ['CONF-1', 'CONF-3']) {
    const conforms = referenceCase<Measured, { p: number; published: number }>(id);
    test(named(conforms), () => {
      const { y, u, T_L = null, T_U } = conforms.inputs;
      const p = conformanceProbability(y, { lower: T_L, upper: T_U }, u);
      expect(Math.abs(p - conforms.expected.p)).toBeLessThan(1e-6);
      expect(p.toFixed(2)).toBe(conforms.expected.published.toFixed(2));
    });
  }

  test('is 0 or 1 where nothing is uncertain', () => {
    expect(conformanceProbability(1, { lower: 0, upper: 2 }, 0)).toBe(1);
    expect(conformanceProbability(3, { lower: 0, upper: 2 }, 0)).toBe(0);
    expect(conformanceProbability(3, { lower: 0, upper: null }, 0)).toBe(1);
  });

  test('a value on the edge of the accepted zone conforms with 97.5 % or more', () => {
    const found = decision(budget(0, 0.004), 0.02);
    const p = conformanceProbability(
      found?.acceptance ?? NaN,
      { lower: -0.02, upper: 0.02 },
      0.004 / 1.95996,
    );
    expect(p).toBeCloseTo(0.975, 4);
  });
});
