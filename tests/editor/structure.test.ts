import { expect, test } from 'vitest';
import { documentSymbols, flatSymbols } from '../../server/editor/documentSymbols.ts';
import { foldingRanges } from '../../server/editor/foldingRanges.ts';
import { openProgram } from './openProgram.ts';

test('routines, branches, loops and comments fold; what does not match is left out', () => {
  const { program } = openProgram(
    [
      '(one)',
      '(two)',
      'o<a> sub',
      'o1 if [1]',
      'G0',
      'o1 else',
      'G1',
      'o1 endif',
      'o2 while [1]',
      'o3 repeat [2]',
      'o3 endrepeat',
      'o2 endwhile',
      'o4 do',
      'G0',
      'o4 while [1]',
      'o<a> endsub',
      'o9 if [1]',
    ].join('\n'),
  );
  expect(foldingRanges(program).map(({ startLine, endLine, kind }) => [startLine, endLine, kind])).toEqual([
    [0, 1, 'comment'],
    [2, 15, undefined],
    [3, 4, undefined],
    [5, 7, undefined],
    [8, 11, undefined],
    [9, 10, undefined],
    [12, 14, undefined],
  ]);
});

test('loops of the macro family fold by their number', () => {
  const { program } = openProgram('(probewright: dialect macro)\nWHILE [#1 LT 3] DO1\nDO2\nG0\nEND2\nEND1');
  expect(foldingRanges(program).map(({ startLine, endLine }) => [startLine, endLine])).toEqual([
    [1, 5],
    [2, 4],
  ]);
});

test('a touch stands once, in its routine, also where two calls reach it', () => {
  const text = [
    'o<edge> sub',
    'G38.2 X[#1] F50',
    '#<_m> = #5061',
    'G0 X0',
    'o<edge> endsub',
    'G21 G90 G94 G54',
    'G0 X0 Z5',
    'o<edge> call [10]',
    'o<edge> call [-10]',
    'G38.2 Z-5 F50',
    'G10 L20 P1 Z0',
    'G0 Z5',
    'M2',
  ].join('\n');
  const { program } = openProgram(text);
  const symbols = documentSymbols(program);
  expect(symbols.map(({ name }) => name)).toEqual(['edge', 'Touch Z−', 'Datum G54.z']);
  expect(symbols[0]?.children?.map(({ name, range }) => [name.slice(0, 5), range.start.line])).toEqual([
    ['Touch', 1],
  ]);
  expect(flatSymbols(symbols, program.uri).map(({ name, containerName }) => [name, containerName])).toEqual([
    ['edge', undefined],
    [expect.stringMatching(/^Touch X. G38\.2$/), 'edge'],
    ['Touch Z− G38.2', undefined],
    ['Datum G54.z', undefined],
  ]);
});

test('N numbers that a jump names stand in their program; others do not', () => {
  const { program } = openProgram(
    '(probewright: dialect macro)\nO1\nN5 G0\nN010 X0\nIF [#1 EQ 0] GOTO 10\nGOTO#5\nM30\nO2\nN10\n/N20\nGOTO20\nM99',
  );
  const symbols = documentSymbols(program);
  expect(symbols.map(({ name, children }) => [name, children?.map((child) => child.name)])).toEqual([
    ['O1', ['N10']],
    ['O2', ['N20']],
  ]);
  expect(symbols[0]?.children?.[0]?.range.start).toEqual({ line: 3, character: 0 });
});
