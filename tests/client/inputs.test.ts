import { describe, expect, test } from 'vitest';
import { inputFault, limits, readInput, shownValue } from '../../client/commands/inputs.ts';
import type { RoutineInput } from '../../server/protocol/requests.ts';

const diameter: RoutineInput = {
  name: 'diameter',
  title: 'Diameter',
  help: 'Of the bore.',
  type: 'length',
  unit: 'mm',
  default: 40,
  least: 8,
  greatest: 400,
  choices: null,
  required: true,
};
const count: RoutineInput = { ...diameter, type: 'count', unit: null, least: 1, greatest: null };
const label: RoutineInput = {
  ...diameter,
  type: 'text',
  unit: null,
  default: null,
  least: null,
  greatest: null,
};
const way: RoutineInput = { ...label, type: 'choice', choices: [{ value: 'x+', title: 'towards X+' }] };

describe('what is typed', () => {
  test.each(['62', ' 62.5 ', '+8', '400', '62.', ''])('"%s" is taken', (typed) => {
    expect(inputFault(diameter, typed)).toBeNull();
  });
  test.each([
    ['12,5', 'Write the number with a point: 12.5'],
    ['1e9', '"1e9" is no number.'],
    ['NaN', '"NaN" is no number.'],
    ['62 mm', '"62 mm" is no number.'],
    ['.', '"." is no number.'],
    ['7.99', 'At least 8 mm.'],
    ['-62', 'At least 8 mm.'],
    ['400.01', 'At most 400 mm.'],
  ])('"%s" is refused: %s', (typed, message) => {
    expect(inputFault(diameter, typed)).toBe(message);
  });
  test('a count is whole', () => {
    expect(inputFault(count, '2.5')).toBe('A whole number is wanted.');
    expect(inputFault(count, '0')).toBe('At least 1.');
    expect(inputFault(count, '2')).toBeNull();
  });
  test('where there is no default, nothing is no answer', () => {
    expect(inputFault({ ...diameter, default: null }, ' ')).toBe('A number must stand here.');
    expect(inputFault(label, '  ')).toBe('Something must stand here.');
    expect(inputFault({ ...label, required: false }, '')).toBeNull();
  });
});

test('a value is read as what it is', () => {
  expect(readInput(diameter, ' 62.5 ')).toBe(62.5);
  expect(readInput(diameter, '')).toBeNull();
  expect(readInput(label, ' a-b ')).toBe('a-b');
});

test.each([
  [diameter, 62.5, '62.5 mm'],
  [{ ...diameter, unit: '°' }, 45, '45°'],
  [count, 3, '3'],
  [{ ...diameter, type: 'flag' as const }, false, 'no'],
  [way, 'x+', 'towards X+'],
  [label, null, 'not given'],
])('a value is shown with its unit', (input, value, expected) => {
  expect(shownValue(input, value)).toBe(expected);
});

test('limits are told in one sentence', () => {
  expect(limits(diameter)).toBe('From 8 to 400 mm.');
  expect(limits(count)).toBe('At least 1.');
  expect(limits({ ...diameter, least: null })).toBe('At most 400 mm.');
  expect(limits(label)).toBe('');
});
