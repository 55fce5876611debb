import { expect, test } from 'vitest';
import { closest } from '../../server/report/closest.ts';

test.each([
  ['diametr', ['diameter', 'depth'], 'diameter'],
  ['BORE', ['boss', 'bore'], 'bore'],
  ['zz', ['diameter', 'depth'], null],
  ['anything', [], null],
])('%s', (text, candidates, expected) => {
  expect(closest(text, candidates)).toBe(expected);
});
