import { expect, test } from 'vitest';
import { plate, rehearsed } from './rehearsed.ts';

test('a program of more blocks than a loop is allowed is not taken for an endless one', () => {
  const program = `G21 G90 G94 G17 G40\n${'G90 G17\n'.repeat(210_000)}G38.2 Z-5 F60\nG0 Z20\nM2`;
  const { undisturbed } = rehearsed(program, plate, { options: { faults: [] } });
  expect(undisturbed.outcome.name, undisturbed.story).toBe('completed');
  expect(undisturbed.line).toBe(210_004);
});
