import fc from 'fast-check';
import { expect, test } from 'vitest';
import { decide } from '../../server/probe/goodFor.ts';

const value = fc.double({ min: -10, max: 10, noNaN: true });
const positive = fc.double({ min: 1e-6, max: 5, noNaN: true });

test('a larger uncertainty never turns one decision into the other', () => {
  fc.assert(
    fc.property(value, positive, positive, positive, (measured, half, small, more) => {
      const limits = { lower: -half, upper: half };
      const [sharp, blunt] = [decide(measured, limits, small), decide(measured, limits, small + more)];
      expect([sharp, 'undecided']).toContain(blunt);
    }),
  );
});

test('without uncertainty everything is decided', () => {
  fc.assert(
    fc.property(value, positive, (measured, half) => {
      const decision = decide(measured, { lower: -half, upper: half }, 0);
      expect(decision).toBe(Math.abs(measured) <= half + 1e-9 ? 'conforms' : 'does-not-conform');
    }),
  );
});

test('a missing limit limits nothing', () => {
  expect(decide(1e6, { lower: 0, upper: null }, 1)).toBe('conforms');
  expect(decide(-1e6, { lower: 0, upper: null }, 1)).toBe('does-not-conform');
});
