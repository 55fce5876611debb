import { describe, expect, test } from 'vitest';
import { add, given, isNumber, scale, subtract, type Value } from '../../server/program/value.ts';

/** A sum of more terms than are followed, over the same inputs whatever the weights. */
function sumOf(weight: (i: number) => number): Value {
  return Array.from({ length: 80 }, (_, i) => scale(given(`input:${i}`, 'an input', [i]), weight(i))).reduce(
    add,
  );
}

describe('sums too long to be followed', () => {
  test('two that differ do not cancel, for all that they rest on the same touches', () => {
    const difference = subtract(
      sumOf((i) => i + 1),
      sumOf((i) => i + 2),
    );
    expect(isNumber(difference)).toBe(false);
  });

  test('one and the same cancels, and what was added to it is left', () => {
    const sum = sumOf((i) => i + 1);
    expect(subtract(sum, sum)).toBe(0);
    expect(subtract(add(sum, 1.5), add(sum, 0.25))).toBe(1.25);
  });
});
