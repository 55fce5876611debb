import { expect, test } from 'vitest';
import { excerpt } from '../../server/report/excerpt.ts';
import { styleFor } from '../../server/report/style.ts';

const plain = styleFor(false);
const same = (text: string) => text;
const mark = (line: number, start: number, end: number, label = '', main = true) => ({
  place: { line, start, end },
  label,
  main,
});

test('places in the order of the text, with a gap where lines are left out', () => {
  const lines = ['one', 'two', 'three', 'four'];
  const marks = [mark(3, 0, 4), mark(0, 1, 3, 'here first', false)];
  expect(excerpt(marks, (line) => lines[line] ?? '', plain, same, 60)).toBe(
    '    1 | one\n      |  -- here first\n    :\n    4 | four\n      | ^^^^\n',
  );
});

test('two places of one line share it', () => {
  const marks = [mark(0, 0, 2), mark(0, 3, 5, 'and here', false)];
  expect(excerpt(marks, () => 'G1 X5', plain, same, 60)).toBe(
    '    1 | G1 X5\n      | ^^\n      |    -- and here\n',
  );
});

test('an empty place still shows where it is', () => {
  expect(excerpt([mark(0, 2, 2)], () => 'G1', plain, same, 60)).toBe('    1 | G1\n      |   ^\n');
});

test('of a line of a megabyte only the part around the place is shown', () => {
  const line = `${'X1 '.repeat(200_000)}FAULT${' Y2'.repeat(200_000)}`;
  const start = line.indexOf('FAULT');
  const [text = '', under = ''] = excerpt([mark(0, start, start + 5)], () => line, plain, same, 60).split(
    '\n',
  );
  expect(text.length).toBeLessThanOrEqual(60);
  expect(text.slice(under.indexOf('^'), under.lastIndexOf('^') + 1)).toBe('FAULT');
  expect(text).toMatch(/^ {4}1 \| …1? ?.*…$/);
});

test('a place longer than what is shown is marked to the edge', () => {
  const [text = '', under = ''] = excerpt([mark(0, 0, 5000)], () => '#'.repeat(5000), plain, same, 60).split(
    '\n',
  );
  expect(under.length).toBe(text.length);
});
