import { describe, expect, test } from 'vitest';
import { calibrate } from '../../../server/probe/calibration/calibrate.ts';
import { type DesignRequest, designCalibration } from '../../../server/probe/calibration/design.ts';
import { lobingShare } from '../../../server/probe/tripModel.ts';
import { noise } from './noise.ts';
import { touched } from './touched.ts';

const request: DesignRequest = {
  touches: 12,
  orders: [3],
  spindles: [],
  spread: { standardDeviation: 0.001, degreesOfFreedom: null },
  referenceUncertainty: 0.001,
  meanPreTravel: 0.02,
};

const designed = (changes: Partial<DesignRequest>) => designCalibration({ ...request, ...changes });

describe('a design', () => {
  test.each([3, 4, 5, 7, 25])('spends %i touches, all of them, the same each time', (touches) => {
    const { best } = designed({ touches });
    expect(best.touches).toHaveLength(touches);
    expect(designed({ touches })).toEqual(designed({ touches }));
  });

  test('sees order 3 from five touches on', () => {
    expect(designed({ touches: 4 }).best.observability.unknowns.orders).toEqual([]);
    for (const touches of [5, 6, 7, 12])
      expect(designed({ touches }).best.observability.unknowns.orders).toEqual([3]);
  });

  test('sees order 6 too with twelve touches, which twelve even directions do not', () => {
    const { best } = designed({ orders: [3, 6] });
    expect(best.observability.unknowns.orders).toEqual([3, 6]);
    expect(best.directions).not.toBe(12);
  });

  test('keeps the lobes of the trip model out of the radius: not twelve even directions, which are blind to order 12', () => {
    const { best } = designed({ meanPreTravel: 0.05 });
    const evenTwelve = (2 * Math.abs(lobingShare(12)) * 0.05) / Math.SQRT2;
    expect(best.directions % 3).not.toBe(0);
    expect(best.unseenLobes).toBeLessThan(evenTwelve / 2);
  });

  test('shares the touches out over the spindle angles where that shows more', () => {
    const { best } = designed({ touches: 14, spindles: [0, 180] });
    expect(best.observability.unknowns.orders).toEqual([1, 3]);
    expect(best.touches.filter(({ spindle }) => spindle === 180)).toHaveLength(7);
  });

  test('names others, each another layout', () => {
    const { best, others } = designed({});
    const layouts = [best, ...others].map(({ directions, spindles }) => `${directions} ${spindles}`);
    expect(others.length).toBeGreaterThan(0);
    expect(new Set(layouts).size).toBe(layouts.length);
  });
});

test('what it foresees is what the calibration then says, but for the spread', () => {
  const { best } = designed({ touches: 9 });
  const next = noise(2, 0.001);
  const touches = touched({ noise: next }, best.touches);
  const result = calibrate(
    touches,
    { kind: 'ring', size: 25, expandedUncertainty: 0.001 },
    { orders: [3], tipDiameter: 4, repeatability: null },
  );
  if ('kind' in result) throw new Error(result.kind);
  const bare = (u: number) => Math.sqrt(u ** 2 - 0.0005 ** 2);
  const found =
    bare(result.uncertainty?.standardUncertainty ?? NaN) / (result.residualStandardDeviation ?? NaN);
  expect(found).toBeCloseTo(bare(best.uncertainty.standardUncertainty) / 0.001, 3);
  expect(result.degreesOfFreedom).toBe(best.degreesOfFreedom);
});
