import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  overtravelLimit,
  speedForStoppingDistance,
  stoppingDistance,
} from '../../server/probe/stoppingDistance.ts';
import { aProbe } from './aProbe.ts';

test('the speed for a stopping distance is its inverse', () => {
  const positive = fc.double({ min: 1e-3, max: 1e3, noNaN: true });
  fc.assert(
    fc.property(
      positive,
      positive,
      fc.double({ min: 0, max: 0.1, noNaN: true }),
      (speed, deceleration, reactionTime) => {
        const probe = aProbe({ machine: { deceleration, reactionTime } });
        const back = speedForStoppingDistance(probe, stoppingDistance(probe, speed));
        expect(Math.abs(back - speed)).toBeLessThanOrEqual(1e-6 * Math.max(1, speed));
      },
    ),
  );
});

test('an axis at rest needs no way to stop', () => {
  expect(stoppingDistance(aProbe(), 0)).toBe(0);
  expect(speedForStoppingDistance(aProbe(), 0)).toBe(0);
});

test('the limit is that of the direction, an oblique one gets the smaller', () => {
  const probe = aProbe();
  expect(overtravelLimit(probe, [1, 0, 0])).toEqual({ limit: 5, allowed: 2.5 });
  expect(overtravelLimit(probe, [0, 0, -1])).toEqual({ limit: 3, allowed: 1.5 });
  expect(overtravelLimit(probe, [Math.SQRT1_2, 0, -Math.SQRT1_2])).toEqual({ limit: 3, allowed: 1.5 });
});
