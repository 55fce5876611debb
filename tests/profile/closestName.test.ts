import fc from 'fast-check';
import { expect, test } from 'vitest';
import { closestName, editDistance } from '../../server/profile/closestName.ts';

const word = fc.string({ unit: fc.constantFrom('a', 'b', 'c'), maxLength: 8 });

test('the distance is one for each letter changed, left out, put in or swapped with its neighbour', () => {
  expect(editDistance('probe', 'prove')).toBe(1);
  expect(editDistance('probe', 'prob')).toBe(1);
  expect(editDistance('probe', 'probes')).toBe(1);
  expect(editDistance('probe', 'porbe')).toBe(1);
  expect(editDistance('', 'probe')).toBe(5);
});

test('the distance is symmetric, 0 only for the same, and never more than the longer word', () => {
  fc.assert(
    fc.property(word, word, (left, right) => {
      const distance = editDistance(left, right);
      expect(distance).toBe(editDistance(right, left));
      expect(distance === 0).toBe(left === right);
      expect(distance).toBeLessThanOrEqual(Math.max(left.length, right.length));
      expect(distance).toBeGreaterThanOrEqual(Math.abs(left.length - right.length));
    }),
  );
});

test('the nearest name is meant, and nothing where all are far', () => {
  const names = ['length', 'stemDiameter', 'material'];
  expect(closestName('lenght', names)).toBe('length');
  expect(closestName('stemdiametre', names)).toBe('stemDiameter');
  expect(closestName('colour', names)).toBeNull();
  expect(closestName('x', ['y'])).toBeNull();
});
