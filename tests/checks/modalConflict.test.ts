import { describe, expect, it } from 'vitest';
import { checkText, told } from './marked.ts';
import { testRule } from './rulePrograms.ts';

testRule(
  'modal-conflict',
  [
    ['two motions', 'rs274ngc', 'G21 G90 G94\nG0 G1 X5 F100 ;! modal-conflict\nM2\n'],
    ['two planes among others', 'rs274ngc', 'G17 G21 G90 G18 G94 ;! modal-conflict\nM2\n'],
    ['the spindle on and off', 'rs274ngc', 'G21 G90 G94\nM3 S100 M5 ;! modal-conflict\nM2\n'],
    [
      'a motion beside a code that takes its axis words',
      'rs274ngc',
      'G21 G90 G94\nG0 G28 Z5 ;! modal-conflict\nM2\n',
    ],
    [
      'two one-shot codes, in a subroutine',
      'rs274ngc',
      'G21 G90 G94\no<a> sub\n  G4 P1 G53 G0 Z0 ;! modal-conflict\no<a> endsub\no<a> call\nM2\n',
    ],
    ['a cycle’s end with a rapid', 'rs274ngc', 'G21 G90 G94\nG80 G0 Z5 ;! modal-conflict\nM2\n'],
    ['one code twice', 'rs274ngc', 'G21 G90 G94\nG0 X5 G0 ;! modal-conflict\nM2\n'],
    ['three of one group', 'rs274ngc', 'G21 G90 G94\nG54 G55 G56 X5 ;! modal-conflict modal-conflict\nM2\n'],
    ['written with zeros, glued', 'rs274ngc', 'G21G90G94\nG00X5G01Y5F100 ;! modal-conflict\nM2\n'],
    ['absolute and incremental', 'macro', 'G21 G90 G94\nG90 G0 G91 X5. ;! modal-conflict\nM30\n'],
    [
      'a cycle and its end, in a loop',
      'macro',
      'G21 G90 G94\nWHILE[#1LT3]DO1\nG81 G80 X5. ;! modal-conflict\n#1=#1+1\nEND1\nM30\n',
    ],
  ],
  [
    ['one of each group', 'rs274ngc', 'G0 G17 G21 G40 G49 G54 G61 G90 G94 G98\nM2\n'],
    ['three M codes of different groups', 'rs274ngc', 'G21 G90 G94\nM3 M8 M48 S100\nM5 M9\nM2\n'],
    ['one after the other', 'rs274ngc', 'G21 G90 G94\nG0 X5\nG1 X6 F100\nG91\nG90\nM2\n'],
    ['a one-shot code with a motion', 'rs274ngc', 'G21 G90 G94\nG53 G0 Z0\nG91 G28 Z0\nM2\n'],
    ['a cycle’s end beside G92', 'rs274ngc', 'G21 G90 G94\nG80 G92 X0\nM2\n'],
    ['user codes', 'rs274ngc', 'G21 G90 G94\nM101 M102\nM62 P1 M64\nM2\n'],
    ['chosen by a variable', 'rs274ngc', 'G21 G90 G94\nG0 G#1 X5\nM2\n'],
    ['G80 with a rapid', 'macro', 'G21 G90 G94\nG80 G0 Z5.\nG0 G80 G90 G40 G49 G17 Z5.\nM30\n'],
    ['one-shot codes together', 'macro', 'G21 G90 G94\nG0 G28 G91 Z0.\nG90 G53 G49 G0 Z0.\nM30\n'],
    ['arguments of a call', 'macro', 'G21 G90 G94\nG65 P9100 M3. T5. S2.\nM3 G65 P9100 M5.\nM30\n'],
    ['the same code twice', 'macro', 'G21 G90 G94\nG90 G0 G90 X5.\nM30\n'],
  ],
);

describe('modal-conflict', () => {
  // NISTIR 6556, 3.3.5 and table 4 (case RS-ML-1, read).
  it.each([
    ['g17 g90 g1 x1', true],
    ['m3 m8 m48 m0', true],
    ['g0 g1 x1', false],
    ['g17 g18', false],
    ['m3 m4', false],
  ])('%s: allowed %s', (line, allowed) => {
    const { findings } = checkText(`G21 G94 F100\n${line}\nm2\n`, { dialect: 'rs274ngc' });
    expect(told(findings)).toEqual(allowed ? [] : ['2 modal-conflict']);
  });
});

it('reads a line of a megabyte that repeats one code', () => {
  const began = process.cpuUsage();
  expect(checkText(`${'G1X1.'.repeat(200_000)}\nM30\n`, { dialect: 'macro' }).findings).toEqual([]);
  const { user, system } = process.cpuUsage(began);
  expect((user + system) / 1000).toBeLessThan(15_000);
});
