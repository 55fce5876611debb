import { expect, test } from 'vitest';
import { inStyle } from '../../server/editor/fileStyle.ts';
import { emptyPlace, type RoutinePlace, routinePlace } from '../../server/editor/routinePlace.ts';
import { routineText } from '../../server/editor/routineRequests.ts';
import { routines } from '../../server/routines/registry.ts';
import { parseBlock } from '../../server/syntax/parseBlock.ts';
import { noProfileFile } from '../../server/workspace/fileProfile.ts';
import { openProgram } from './openProgram.ts';

const [surface] = routines.filter(({ name }) => name === 'surface');

function linesAt(place: RoutinePlace): string[] {
  const written = surface && routineText(surface, place, 'inline', {});
  if (!written || 'problems' in written) throw new Error('surface');
  return written.text.trimEnd().split('\n');
}

const textIn = (program: string, line: number) => linesAt(routinePlace(openProgram(program).program, line));
const plain = () => linesAt(emptyPlace(noProfileFile));

test('a file without habits gets the routine as it is', () => {
  expect(textIn('G21 G90\n', 0)).toEqual(plain());
  expect(textIn('G21 G90\nG0 X1\nG1 X2 F100\nM5\n', 3)).toEqual(plain());
});

test('small letters for a file in small letters; comments stay', () => {
  const lines = textIn('g21 g90\ng0 x1\ng1 x2 f100\nm5\n', 3);
  expect(lines).toContain('m70 (keep the modes)');
  expect(lines[0]).toBe(plain()[0]);
});

test('N numbers go on behind the highest, in the step of the file; O-words and comments have none', () => {
  const lines = textIn('N5 G21 G90\nN10 G0 X1\nN500 G1 X2 F100\nN20 M5\n(end)\nN25 M0\n', 3);
  const numbers = lines.flatMap((line) => /^N(\d+) /.exec(line)?.[1] ?? []).map(Number);
  expect(numbers.slice(0, 3)).toEqual([505, 510, 515]);
  expect(new Set(numbers).size).toBe(numbers.length);
  for (const line of lines) if (/^[o(]/.test(line)) expect(line).not.toMatch(/^N/);
  for (const line of lines)
    expect(parseBlock(line, openProgram('').program.source.dialect).faults).toEqual([]);
});

test('no number is given twice: a failed touch jumps to the label that it means', () => {
  for (const [first, step] of [
    [601, 1],
    [851, 1],
    [700, 2],
    [890, 10],
  ] as const) {
    const blocks = Array.from({ length: 60 }, (_, i) => `N${first + i * step} G0 X${i}.`);
    const { program } = openProgram(`%\nO1\n${blocks.join('\n')}\nM30\n%\n`, { dialect: 'macro' });
    for (const form of ['inline', 'subroutine'] as const) {
      const written = surface && routineText(surface, routinePlace(program, 5), form, {});
      if (!written || 'problems' in written) throw new Error('surface');
      const lines = written.text.split('\n');
      const numbers = lines.flatMap((line) => /^N(\d+) /.exec(line)?.[1] ?? []);
      expect(numbers.length).toBeGreaterThan(30);
      expect(new Set(numbers).size).toBe(numbers.length);
      const targets = lines.flatMap((line) => /GOTO (\d+)/.exec(line)?.[1] ?? []);
      for (const target of targets) expect(numbers).toContain(target);
      expect(blocks.filter((block) => numbers.includes(/\d+/.exec(block)?.[0] ?? ''))).toEqual([]);
    }
  }
});

test('numbers that no block may have are not written', () => {
  const lines = textIn('N99980 G21 G90\nN99985 G0 X1\nN99990 G1 X2 F100\nN99995 M5\n', 3);
  expect(lines).toEqual(plain());
});

test('the lines stand as far in as those around them', () => {
  const lines = textIn('o1 if [1]\n    G0 X1\n\no1 endif\n', 2);
  expect(lines.every((line) => line.startsWith('    '))).toBe(true);
});

test('labels of the macro family keep their numbers', () => {
  const style = { isLowerCase: true, numbers: { next: 20, step: 10 } };
  expect(inStyle(['G31 X1.', 'N901 #3000=1 (NO)', 'GOTO901'], style)).toEqual([
    'n20 g31 x1.',
    'n901 #3000=1 (NO)',
    'n30 goto901',
  ]);
});
