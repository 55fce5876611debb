import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type DerivedValue, derivedError } from '../../server/probe/derivedError.ts';
import { effectiveRadius } from '../../server/probe/effectiveRadius.ts';
import { goodFor } from '../../server/probe/goodFor.ts';
import type { Probe } from '../../server/probe/probe.ts';
import { predictedMeanPreTravel } from '../../server/probe/tripModel.ts';
import { aProbe } from './aProbe.ts';
import { derived, touch } from './aTouch.ts';

const a3 = 0.002;
const lobed = aProbe({ calibration: { harmonics: [{ order: 3, cosine: a3, sine: 0.001 }] } });
const r = (probe: Probe, degrees: number) => effectiveRadius(probe, degrees, 1, 'towards');

const surface = derived([touch(1, 'x', 1)], 0.5);
const boreCentre = derived([touch(0.5, 'x', 1), touch(0.5, 'x', -1)]);
const boreDiameter = derived([touch(1, 'x', 1), touch(-1, 'x', -1)], 1);
const bossDiameter = derived([touch(1, 'x', -1), touch(-1, 'x', 1)], -1);

const uncertainty = (probe: Probe, value: DerivedValue, name: string) =>
  derivedError(probe, value).components.find((part) => part.name === name)?.standardUncertainty ?? 0;

describe('the biases of the table', () => {
  test('surface met in X+: D/2 − r(0°)', () => {
    expect(derivedError(lobed, surface).bias).toBeCloseTo(1.99 - r(lobed, 0), 12);
    expect(derivedError(lobed, surface).bias).toBeCloseTo(-a3, 12);
  });

  test('bore centre in X: ½·(r(180°) − r(0°)) = −a_3', () => {
    expect(derivedError(lobed, boreCentre).bias).toBeCloseTo((r(lobed, 180) - r(lobed, 0)) / 2, 12);
    expect(derivedError(lobed, boreCentre).bias).toBeCloseTo(-a3, 12);
  });

  test('bore and boss diameter: ±(D − r(0°) − r(180°))', () => {
    const even = aProbe({ calibration: { harmonics: [{ order: 2, cosine: 0.003, sine: 0 }] } });
    expect(derivedError(even, boreDiameter).bias).toBeCloseTo(3.98 - r(even, 0) - r(even, 180), 12);
    expect(derivedError(even, bossDiameter).bias).toBeCloseTo(r(even, 0) + r(even, 180) - 3.98, 12);
  });

  test('missing, reversed and doubled compensation of a surface in Y−', () => {
    const met = [touch(1, 'y', -1)];
    const bias = (coefficient: number) => derivedError(aProbe(), derived(met, coefficient)).bias;
    expect(bias(-0.5)).toBeCloseTo(0, 12);
    expect(bias(0)).toBeCloseTo(1.99, 12);
    expect(bias(0.5)).toBeCloseTo(3.98, 12);
    expect(bias(-1)).toBeCloseTo(-1.99, 12);
  });
});

describe('what holds for every probe', () => {
  const length = fc.double({ min: 0.5, max: 20, noNaN: true });
  const small = fc.double({ min: -0.01, max: 0.01, noNaN: true });

  test("a bore's centre does not depend on the effective diameter", () => {
    fc.assert(
      fc.property(length, length, small, small, (one, other, cosine, sine) => {
        const harmonics = [{ order: 3, cosine, sine }];
        const bias = (effectiveDiameter: number) =>
          derivedError(aProbe({ calibration: { effectiveDiameter, harmonics } }), boreCentre).bias ?? NaN;
        expect(bias(one)).toBeCloseTo(bias(other), 10);
      }),
    );
  });

  test("a bore's diameter is free of odd lobes, known or not", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 6 }), small, small, fc.boolean(), (half, cosine, sine, known) => {
        const harmonics = [{ order: 2 * half + 1, cosine, sine }];
        const probe = aProbe({ calibration: { harmonics } });
        const budget = derivedError(probe, { ...boreDiameter, spindlePhaseKnown: known });
        expect(budget.bias).toBeCloseTo(0, 10);
        expect(budget.components.map(({ name }) => name)).not.toContain(`lobing-${2 * half + 1}`);
      }),
    );
  });

  test('the bias scales with the value, and the uncertainty with its size', () => {
    fc.assert(
      fc.property(fc.double({ min: -5, max: 5, noNaN: true }), (factor) => {
        const scaled = derived([touch(factor, 'x', 1)], 0.5 * factor);
        const [one, many] = [derivedError(lobed, surface), derivedError(lobed, scaled)];
        expect(many.bias).toBeCloseTo(factor * (one.bias ?? NaN), 10);
        expect(many.standardUncertainty).toBeCloseTo(Math.abs(factor) * one.standardUncertainty, 10);
      }),
    );
  });

  test('the combined uncertainty is the root sum of squares of the components', () => {
    const budget = derivedError(
      aProbe({ calibration: null, seat: { radius: 7, preload: 1, angle: null } }),
      surface,
    );
    const squares = budget.components.reduce((sum, part) => sum + part.standardUncertainty ** 2, 0);
    expect(budget.standardUncertainty).toBeCloseTo(Math.sqrt(squares), 14);
    expect(budget.expandedUncertainty).toBeCloseTo(1.959963985 * budget.standardUncertainty, 9);
    expect(budget.expectedError).toBe(Math.abs(budget.bias ?? NaN) + budget.expandedUncertainty);
  });
});

describe('components of one touch', () => {
  const budget = derivedError(aProbe({ runout: 0.004 }), { ...surface, spindlePhaseKnown: true });

  test('each has its size, distribution and source', () => {
    expect(
      Object.fromEntries(budget.components.map((part) => [part.name, [part.distribution, part.source]])),
    ).toEqual({
      repeatability: ['normal', 'probe.repeatability'],
      'latch-period': ['rectangular', 'machine.latchPeriod'],
      resolution: ['rectangular', 'machine.resolution'],
      positioning: ['normal', 'machine.positioningUncertainty'],
      'effective-radius': ['normal', 'probe.calibration.expandedUncertainty'],
      runout: ['arcsine', 'probe.runout'],
    });
    const sizes = Object.fromEntries(budget.components.map((part) => [part.name, part.standardUncertainty]));
    expect(sizes.repeatability).toBeCloseTo(0.001, 12);
    expect(sizes['latch-period']).toBeCloseTo(0.001 / Math.sqrt(12), 12);
    expect(sizes.resolution).toBeCloseTo(0.001 / Math.sqrt(12), 12);
    expect(sizes.positioning).toBeCloseTo(0.005, 12);
    expect(sizes['effective-radius']).toBeCloseTo(0.0005, 12);
    expect(sizes.runout).toBeCloseTo(0.004 / Math.SQRT2, 12);
    expect(budget.notIncluded).toEqual([]);
  });

  test('a calibration that never looked for lobes carries those of the model, scaled to its mean pre-travel', () => {
    const blind = aProbe({ calibration: { harmonics: null } });
    expect(uncertainty(blind, boreCentre, 'lobing-3')).toBeCloseTo((0.27514 * 0.01) / Math.SQRT2, 7);
    expect(uncertainty(blind, boreDiameter, 'lobing-3')).toBe(0);
    expect(uncertainty(blind, boreDiameter, 'lobing-6')).toBeCloseTo((2 * 0.10431 * 0.01) / Math.SQRT2, 6);
  });

  test('a spindle that was turned leaves the amplitude of each order and loses its bias', () => {
    const turned = derivedError(lobed, { ...boreCentre, spindlePhaseKnown: false });
    expect(turned.bias).toBeCloseTo(0, 12);
    expect(uncertainty(lobed, { ...boreCentre, spindlePhaseKnown: false }, 'lobing-3')).toBeCloseTo(
      Math.hypot(a3, 0.001) / Math.SQRT2,
      12,
    );
    const off = aProbe({
      runout: null,
      calibration: { harmonics: [{ order: 1, cosine: 0.003, sine: 0.004 }] },
    });
    expect(uncertainty(off, { ...boreCentre, spindlePhaseKnown: false }, 'runout')).toBeCloseTo(
      0.005 / Math.SQRT2,
      12,
    );
    expect(derivedError(off, boreCentre).notIncluded).toEqual([]);
  });

  test('a predicted probe: u of the mean is itself/√3; the lobes are in the bias where the seat is known, else in both', () => {
    const seated = aProbe({ calibration: null });
    const unknown = aProbe({ calibration: null, seat: { ...seated.seat, angle: null } });
    const mean = predictedMeanPreTravel(seated);
    expect(uncertainty(seated, surface, 'effective-radius')).toBeCloseTo(mean / Math.sqrt(3), 12);
    expect(uncertainty(seated, surface, 'lobing-3')).toBe(0);
    expect(uncertainty(unknown, surface, 'lobing-3')).toBeCloseTo((0.27514 * mean) / Math.SQRT2, 7);
    expect(derivedError(unknown, surface).bias).toBe(derivedError(seated, surface).bias);
    expect(derivedError(unknown, surface).calibrated).toBe(false);
  });

  test('temperature only for sizes, only where the spread is stated', () => {
    const warm = aProbe({ machine: { temperatureSpread: 2 } });
    expect(uncertainty(warm, { ...boreDiameter, size: 40 }, 'temperature')).toBeCloseTo(
      (11.5e-6 * 2 * 40) / Math.sqrt(3),
      12,
    );
    expect(uncertainty(warm, { ...boreCentre, size: 40 }, 'temperature')).toBe(0);
    expect(derivedError(warm, boreDiameter).notIncluded).toEqual(['temperature']);
    expect(derivedError(aProbe(), { ...boreDiameter, size: 40 }).notIncluded).toEqual(['temperature']);
  });

  test('degrees of freedom of the residual reach the coverage factor', () => {
    const few = aProbe({
      repeatability: {
        standardDeviation: 0.02,
        degreesOfFreedom: 4,
        source: 'probe.calibration.residualStandardDeviation',
      },
    });
    const { degreesOfFreedom, coverageFactor, standardUncertainty } = derivedError(few, surface);
    expect(degreesOfFreedom).toBeCloseTo((standardUncertainty ** 4 / 0.02 ** 4) * 4, 9);
    expect(coverageFactor).toBeGreaterThan(2.4);
    expect(coverageFactor).toBeLessThan(2.776);
  });

  test('a coordinate that the touch did not move adds resolution only', () => {
    const beside = derivedError(aProbe(), derived([touch(1, 'y', 0, { direction: [1, 0, 0] })]));
    expect(beside.components.map(({ name }) => name)).toEqual(['resolution']);
    expect(beside.bias).toBe(0);
  });
});

describe('feeds, axes and stops', () => {
  test('the feed shifts the bias by (v − v_cal)·τ', () => {
    const fast = derived([touch(1, 'x', 1, { speed: 6 })], 0.5);
    expect(derivedError(aProbe(), fast).bias).toBeCloseTo(0.005, 12);
    const away = derived([touch(1, 'x', 1, { speed: 6, motion: 'away' })], 0.5);
    expect(derivedError(aProbe(), away).bias).toBeCloseTo(-0.007, 12);
  });

  test('a touch in Z needs no compensation and has no radius in its budget', () => {
    const down = derivedError(aProbe({ runout: null }), derived([touch(1, 'z', -1, { speed: 3 })]));
    expect(down.bias).toBeCloseTo(-0.002, 12);
    expect(down.notIncluded).toEqual([]);
    expect(down.components.map(({ name }) => name)).toEqual([
      'repeatability',
      'resolution',
      'positioning',
      'latch-period',
    ]);
  });

  test('where the axis came to rest is the stopping distance past the trip, in place of the latch', () => {
    const stopped = derived([touch(1, 'x', 1, { from: 'stopped' })], 0.5);
    // v·t_r + v²/(2a) = 0.01 + 0.005, the latch stands at v·τ = 0.001.
    expect(derivedError(aProbe(), stopped).bias).toBeCloseTo(0.014, 12);
    expect(derivedError(aProbe(), stopped).notIncluded).toEqual(['stopping-distance']);
    const returning = aProbe({ machine: { afterTrip: 'returns-to-trip' } });
    expect(derivedError(returning, stopped).bias).toBeCloseTo(0, 12);
    const away = derived([touch(1, 'x', 1, { from: 'stopped', motion: 'away' })], 0.5);
    expect(derivedError(aProbe(), away).bias).toBeCloseTo(-0.002 - 0.014, 12);
  });

  const unknown: readonly (readonly [string, DerivedValue, readonly string[]])[] = [
    [
      'an oblique touch',
      derived([touch(1, 'x', 1, { direction: [0.6, 0.8, 0], sign: null })], 0.5),
      ['oblique-touch'],
    ],
    [
      'no direction',
      derived([touch(1, 'x', 1, { sign: null })], 0.5),
      ['direction', 'effective-radius', 'lobing', 'runout'],
    ],
    ['no feed', derived([touch(1, 'x', 1, { speed: null })], 0.5), ['feed', 'latch-period']],
    ['no diameter', derived([touch(1, 'x', 1)], 0.5, { diameter: null }), ['diameter']],
    ['a rotary axis', { ...surface, terms: [{ ...touch(1, 'x', 1), axis: 'a' }] }, ['rotary-axis']],
  ];

  test.each(unknown)('%s: no bias, and why', (_, value, names) => {
    const budget = derivedError(aProbe(), value);
    expect(budget.bias).toBeNull();
    expect(budget.expectedError).toBeNull();
    expect(goodFor(budget)).toBeNull();
    expect(budget.notIncluded).toEqual(names);
  });

  test('a feed that nothing depends on is not asked for', () => {
    const immediate = aProbe({ machine: { tripLatency: 0, latchPeriod: 0 } });
    const budget = derivedError(immediate, derived([touch(1, 'x', 1, { speed: null })], 0.5));
    expect(budget.bias).toBeCloseTo(0, 12);
    expect(budget.notIncluded).toEqual([]);
  });

  test('what the calibration does not state is named where it would count', () => {
    const silent = aProbe({ runout: null, calibration: { speed: null, expandedUncertainty: null } });
    const names = (value: DerivedValue) => derivedError(silent, value).notIncluded;
    expect(names(surface)).toEqual(['calibration-feed', 'effective-radius', 'runout']);
    expect(names(boreDiameter)).toEqual(['calibration-feed', 'effective-radius', 'temperature']);
    expect(names(boreCentre)).toEqual(['runout']);
  });

  test('two feeds in one value shift it whatever the feed of the calibration was', () => {
    const uneven = derived([touch(0.5, 'x', 1, { speed: 2 }), touch(0.5, 'x', -1, { speed: 6 })]);
    const step = derived([touch(1, 'z', -1, { speed: 2 }), touch(-1, 'z', -1, { speed: 6 })]);
    for (const calibration of [{}, { speed: null }, null]) {
      const probe = aProbe({ calibration, seat: { radius: 7, preload: 1, angle: 30 } });
      const lobes = derivedError(probe, boreCentre).bias ?? NaN;
      expect((derivedError(probe, uneven).bias ?? NaN) - lobes).toBeCloseTo(-0.002, 12);
      expect(derivedError(probe, step).bias).toBeCloseTo(0.004, 12);
    }
  });

  test('a constant, of no touches, has no error', () => {
    expect(derivedError(aProbe(), derived([]))).toMatchObject({
      bias: 0,
      standardUncertainty: 0,
      degreesOfFreedom: null,
      expectedError: 0,
    });
  });
});
