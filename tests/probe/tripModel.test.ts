import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  lobingShare,
  modelledOrders,
  predictedAxialPreTravel,
  predictedMeanPreTravel,
  predictedPreTravel,
} from '../../server/probe/tripModel.ts';
import { aProbe } from './aProbe.ts';

const probe = aProbe({ calibration: null });
const low = predictedPreTravel(probe, 0);

/** Mean over a full turn by the midpoint rule, the kinks at 60° on the edges of the steps. */
function meanOverTurn(value: (degrees: number) => number): number {
  const steps = 36_000;
  let sum = 0;
  for (let index = 0; index < steps; index += 1) sum += value(((index + 0.5) * 360) / steps);
  return sum / steps;
}

function amplitudes(order: number): { cosine: number; sine: number } {
  const at = (degrees: number) => (order * degrees * Math.PI) / 180;
  return {
    cosine: 2 * meanOverTurn((degrees) => predictedPreTravel(probe, degrees) * Math.cos(at(degrees))),
    sine: 2 * meanOverTurn((degrees) => predictedPreTravel(probe, degrees) * Math.sin(at(degrees))),
  };
}

describe('the exact properties of the trip model, by numerical integration', () => {
  test('largest over smallest pre-travel is 2', () => {
    expect(predictedPreTravel(probe, 60) / low).toBeCloseTo(2, 12);
  });

  test('the mean over a turn is 1.25760 of the least', () => {
    const mean = meanOverTurn((degrees) => predictedPreTravel(probe, degrees));
    expect(mean / low).toBeCloseTo(1.2576, 5);
    expect(mean / predictedMeanPreTravel(probe)).toBeCloseTo(1, 7);
  });

  test('the cosine amplitude of order 3 is −0.34601 of the least', () => {
    expect(amplitudes(3).cosine / low).toBeCloseTo(-0.34601, 5);
    expect((3 * Math.sqrt(3)) / Math.PI - 2).toBeCloseTo(-0.34601, 5);
  });

  test('only orders 3, 6, 9, … are present, and none has a sine', () => {
    for (let order = 1; order <= 12; order += 1) {
      const { cosine, sine } = amplitudes(order);
      expect(Math.abs(sine)).toBeLessThan(1e-9);
      if (order % 3 !== 0) expect(Math.abs(cosine)).toBeLessThan(1e-9);
      expect(lobingShare(order)).toBeCloseTo(cosine / predictedMeanPreTravel(probe), 6);
    }
  });

  test('orders 3, 6 and 9 are 0.27514, 0.10431 and 0.05366 of the mean', () => {
    const shares = modelledOrders.map((order) => Math.abs(lobingShare(order)));
    [0.27514, 0.10431, 0.05366].forEach((share, index) => {
      expect(shares[index]).toBeCloseTo(share, 5);
    });
  });

  test('the orders above 9 hold about 2 % of the variance', () => {
    const mean = predictedMeanPreTravel(probe);
    const variance = meanOverTurn((degrees) => (predictedPreTravel(probe, degrees) / mean - 1) ** 2);
    const told = modelledOrders.reduce((sum, order) => sum + lobingShare(order) ** 2 / 2, 0);
    expect(1 - told / variance).toBeGreaterThan(0.015);
    expect(1 - told / variance).toBeLessThan(0.025);
  });
});

test('the pattern turns with the seat, and repeats every third of a turn', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -720, max: 720, noNaN: true }),
      fc.integer({ min: -180, max: 180 }),
      (direction, angle) => {
        const turned = aProbe({ calibration: null, seat: { ...probe.seat, angle } });
        const straight = predictedPreTravel(probe, direction);
        expect(predictedPreTravel(turned, direction + angle)).toBeCloseTo(straight, 9);
        expect(predictedPreTravel(probe, direction + 120)).toBeCloseTo(straight, 9);
        expect(straight).toBeGreaterThanOrEqual(low * (1 - 1e-12));
        expect(straight).toBeLessThanOrEqual(2 * low * (1 + 1e-12));
      },
    ),
  );
});

test('an unknown seat angle is taken as 0', () => {
  const unknown = aProbe({ calibration: null, seat: { ...probe.seat, angle: null } });
  expect(predictedPreTravel(unknown, 17)).toBe(predictedPreTravel(probe, 17));
});

test('the axial pre-travel is P·L/(E·A), far below the lateral one', () => {
  const axial = predictedAxialPreTravel(probe);
  expect(axial).toBeCloseTo((1 * 50) / (620_000 * Math.PI), 12);
  expect(axial).toBeLessThan(low / 50);
});

test('a stiff short stylus disagrees between opposite directions by under 0.0005 in, a slender one by much more (common practice, no source)', () => {
  const acrossInch = (length: number, stemDiameter: number) => {
    const stylus = { length, stemDiameter, material: 'tungsten-carbide' } as const;
    const one = aProbe({ calibration: null, stylus });
    return (predictedPreTravel(one, 180) - predictedPreTravel(one, 0)) / 25.4;
  };
  expect(acrossInch(30, 3)).toBeLessThan(0.0005);
  expect(acrossInch(100, 1.5)).toBeGreaterThan(0.002);
});
