import { describe, expect, test } from 'vitest';
import { anglesFault, countFault, readAngles, readSize, sizeFault } from '../../client/commands/sizes.ts';

describe('a length that a person types', () => {
  test.each(['25.001', ' 25 ', '.5', '0.001'])('%j is taken', (typed) => {
    expect(sizeFault(typed, true)).toBeNull();
    expect(readSize(typed)).toBe(Number(typed));
  });

  test.each(['25,001', 'a ring', '-3', '1e3', '0', ''])('%j is not, and why is said', (typed) => {
    expect(sizeFault(typed, true)).toMatch(/\w+ \w+/);
  });

  test('may be left out where it is not needed', () => {
    expect(sizeFault('', false)).toBeNull();
    expect(sizeFault('0', false)).toBeNull();
    expect(readSize(' ')).toBeNull();
  });
});

test('touches are counted in whole numbers, three or more', () => {
  expect(['3', ' 12 '].map(countFault)).toEqual([null, null]);
  for (const typed of ['2', '3.5', '', 'many']) expect(countFault(typed)).toContain('3 or more');
});

test('spindle angles stand with commas between them, or not at all', () => {
  expect(readAngles('0, 180')).toEqual([0, 180]);
  expect(readAngles('')).toEqual([]);
  expect(['0,180', '', '-90'].map(anglesFault)).toEqual([null, null, null]);
  for (const typed of ['0;180', '0,', 'north']) expect(anglesFault(typed)).toMatch(/commas/);
});
