import { describe, expect, test } from 'vitest';
import { calibrate } from '../../../server/probe/calibration/calibrate.ts';
import { type DesignRequest, designCalibration } from '../../../server/probe/calibration/design.ts';
import { observability } from '../../../server/probe/calibration/observability.ts';
import { approachesOf } from '../../../server/probe/calibration/unknowns.ts';
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
    expect(best.shares[0]?.directions).not.toBe(12);
  });

  test('keeps the lobes of the trip model out of the radius: not twelve even directions, which are blind to order 12', () => {
    const { best } = designed({ meanPreTravel: 0.05 });
    const evenTwelve = (2 * Math.abs(lobingShare(12)) * 0.05) / Math.SQRT2;
    expect((best.shares[0]?.directions ?? 0) % 3).not.toBe(0);
    expect(best.unseenLobes).toBeLessThan(evenTwelve / 2);
  });

  test('shares the touches out over the spindle angles where that shows more', () => {
    const { best } = designed({ touches: 14, spindles: [0, 180] });
    expect(best.observability.unknowns.orders).toEqual([1, 3]);
    expect(best.touches.filter(({ spindle }) => spindle === 180)).toHaveLength(7);
  });

  test.each([
    [8, [5, 3]],
    [9, [6, 3]],
    [10, [5, 5]],
  ])('%i touches over two angles are shared so that run-out and order 3 are both seen', (touches, shares) => {
    const { best } = designed({ touches, spindles: [0, 180] });
    expect(best.observability.unknowns.orders).toEqual([1, 3]);
    expect(best.shares.map((share) => share.touches)).toEqual(shares);
    expect(best.touches).toHaveLength(touches);
  });

  test('seven touches leave run-out aside', () => {
    expect(designed({ touches: 7, spindles: [0, 180] }).best.observability.unknowns.orders).toEqual([3]);
  });

  test('one degree of freedom is told of by what two touches more bring', () => {
    const { best, richer } = designed({ touches: 8, spindles: [0, 180] });
    expect(best.degreesOfFreedom).toBe(1);
    expect(richer?.touches).toHaveLength(10);
    expect(richer?.uncertainty.expandedUncertainty).toBeLessThan(best.uncertainty.expandedUncertainty / 2);
    expect(designed({ touches: 12 }).richer).toBeNull();
  });

  test.each([7, 8, 9, 11, 13])(
    'no share of %i touches at 0° and 180° that was passed over sees more',
    (touches) => {
      const { best } = designed({ touches, spindles: [0, 180] });
      const seen = (first: number, turn: number) => {
        const placed = [first, touches - first].flatMap((count, angle) =>
          Array.from({ length: count }, (_, index) => ({
            direction: (angle * turn + (360 * index) / count) % 360,
            spindle: 180 * angle,
            speed: null,
          })),
        );
        const { unknowns, condition } = observability(approachesOf(placed), [3], true);
        return condition <= 20 ? unknowns.orders.length : 0;
      };
      const most = Array.from({ length: touches - 2 }, (_, index) => index + 1).flatMap((first) =>
        [0, 10, 20, 30, 45, 60].map((turn) => seen(first, turn)),
      );
      expect(best.observability.unknowns.orders).toHaveLength(Math.max(...most));
    },
  );

  test('names others, each another layout', () => {
    const { best, others } = designed({});
    const layouts = [best, ...others].map(({ shares }) => JSON.stringify(shares));
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
