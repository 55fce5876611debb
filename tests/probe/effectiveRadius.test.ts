import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { effectiveDiameter } from '../../server/probe/effectiveDiameter.ts';
import {
  axialRadius,
  effectiveRadius,
  meanEffectiveRadius,
  meanPreTravel,
} from '../../server/probe/effectiveRadius.ts';
import { predictedPreTravel } from '../../server/probe/tripModel.ts';
import { aProbe } from './aProbe.ts';

const lobes = [
  { order: 3, cosine: 0.002, sine: -0.001 },
  { order: 6, cosine: 0.0005, sine: 0 },
];
const lobed = aProbe({ calibration: { harmonics: lobes } });
const direction = fc.double({ min: -360, max: 360, noNaN: true });
const speed = fc.double({ min: 0, max: 50, noNaN: true });

describe('a calibrated probe', () => {
  test('has the harmonics of the calibration at its feed', () => {
    expect(effectiveRadius(lobed, 0, 1, 'towards')).toBeCloseTo(1.99 + 0.002 + 0.0005, 12);
    expect(effectiveRadius(lobed, 30, 1, 'towards')).toBeCloseTo(1.99 - 0.001 - 0.0005, 12);
    expect(effectiveRadius(lobed, 60, 1, 'towards')).toBeCloseTo(1.99 - 0.002 + 0.0005, 12);
  });

  test('loses (v − v_cal)·τ towards the surface and gains (v + v_cal)·τ away from it', () => {
    fc.assert(
      fc.property(direction, speed, (theta, v) => {
        const at = effectiveRadius(lobed, theta, 1, 'towards');
        expect(effectiveRadius(lobed, theta, v, 'towards')).toBeCloseTo(at - (v - 1) * 0.001, 12);
        expect(effectiveRadius(lobed, theta, v, 'away')).toBeCloseTo(at + (v + 1) * 0.001, 12);
      }),
    );
  });

  test('a calibration that does not state its feed counts as made at the feed of the touch', () => {
    const silent = aProbe({ calibration: { speed: null } });
    expect(effectiveRadius(silent, 0, 7, 'towards')).toBeCloseTo(1.99, 12);
    expect(effectiveRadius(silent, 0, 7, 'away')).toBeCloseTo(1.99 + 0.014, 12);
  });

  test('the lobes turn with the spindle', () => {
    fc.assert(
      fc.property(direction, direction, (theta, turn) => {
        const straight = effectiveRadius(lobed, theta, 1, 'towards');
        expect(effectiveRadius(lobed, theta + turn, 1, 'towards', turn)).toBeCloseTo(straight, 10);
      }),
    );
  });

  test('the effective diameter is twice the mean radius, the mean pre-travel what is missing to the actual one', () => {
    let sum = 0;
    for (let degrees = 0; degrees < 360; degrees += 1) sum += effectiveRadius(lobed, degrees, 1, 'towards');
    expect((2 * sum) / 360).toBeCloseTo(3.98, 12);
    expect(meanEffectiveRadius(lobed, 1, 'towards')).toBe(1.99);
    expect(meanPreTravel(lobed)).toBeCloseTo(0.01, 12);
  });
});

describe('a predicted probe', () => {
  const predicted = aProbe({ calibration: null });

  test('has R − p(θ) − v·τ towards and + v·τ away', () => {
    fc.assert(
      fc.property(direction, speed, (theta, v) => {
        const still = 2 - predictedPreTravel(predicted, theta);
        expect(effectiveRadius(predicted, theta, v, 'towards')).toBeCloseTo(still - v * 0.001, 12);
        expect(effectiveRadius(predicted, theta, v, 'away')).toBeCloseTo(still + v * 0.001, 12);
      }),
    );
  });

  test('its diameter is uncertain by the whole of its pre-travel, as a rectangle', () => {
    const { value, expandedUncertainty } = effectiveDiameter(predicted);
    expect(expandedUncertainty).toBeCloseTo((1.959964 * (4 - value)) / Math.sqrt(3), 7);
  });
});

test('a touch along the axis has only the difference of the feeds', () => {
  const probe = aProbe();
  expect(axialRadius(probe, 1, 'towards')).toBeCloseTo(0, 12);
  expect(axialRadius(probe, 3, 'towards')).toBeCloseTo(-0.002, 12);
  expect(axialRadius(probe, 3, 'away')).toBeCloseTo(0.004, 12);
  expect(axialRadius(aProbe({ calibration: null }), 3, 'towards')).toBeCloseTo(0, 12);
});
