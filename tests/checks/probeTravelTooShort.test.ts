import { describe, expect, it } from 'vitest';
import { checkText, told } from './marked.ts';
import { testRule } from './rulePrograms.ts';

testRule(
  'probe-travel-too-short',
  [
    ['incremental', 'rs274ngc', 'G21 G91 G94\nG38.2 Z-0.2 F40 ;! probe-travel-too-short\nG0 Z5\nM2\n'],
    [
      'absolute from a known position',
      'rs274ngc',
      'G21 G90 G94\nG0 X10\nG38.2 X10.1 F40 ;! probe-travel-too-short\nG0 X0\nM2\n',
    ],
    ['inches', 'rs274ngc', 'G20 G91 G94\nG38.2 Z-0.009 F2 ;! probe-travel-too-short\nG0 Z1\nM2\n'],
    [
      'in a called subroutine, from an argument',
      'rs274ngc',
      'G21 G91 G94\no<d> sub\n  G38.2 Z-#1 F40 ;! probe-travel-too-short\n  G0 Z5\no<d> endsub\no<d> call [0.1]\nM2\n',
    ],
    [
      'away, in a loop',
      'rs274ngc',
      'G21 G91 G94\no1 repeat [3]\n  G38.2 Z-10 F200\n  G38.4 Z0.2 F20 ;! probe-travel-too-short\n  G0 Z10\no1 endrepeat\nM2\n',
    ],
    [
      'two axes',
      'rs274ngc',
      'G21 G91 G94\nG38.2 X0.15 Y0.15 F40 ;! probe-travel-too-short\nG0 X-2 Y-2\nM2\n',
    ],
    [
      'on a branch',
      'rs274ngc',
      'G21 G91 G94\no1 if [#1 GT 0]\n  G38.3 Z-0.1 F40 ;! probe-travel-too-short\n  G0 Z5\no1 endif\nM2\n',
    ],
  ],
  [
    ['incremental, just enough', 'rs274ngc', 'G21 G91 G94\nG38.2 Z-0.254 F40\nG0 Z5\nM2\n'],
    ['inches, just enough', 'rs274ngc', 'G20 G91 G94\nG38.2 Z-0.01 F2\nG0 Z1\nM2\n'],
    ['from where, the text does not say', 'rs274ngc', 'G21 G90 G94\nG38.2 Z0.1 F40\nG0 Z5\nM2\n'],
    [
      'from an argument that nobody gives',
      'rs274ngc',
      'o<d> sub\n  G21 G91 G94\n  G38.2 Z-#1 F40\n  G0 Z5\no<d> endsub\n',
    ],
    [
      'distance mode differs by path',
      'rs274ngc',
      'G21 G90 G94\nG0 Z5\no1 if [#1 GT 0]\n  G91\no1 endif\nG38.2 Z0.1 F40\nG53 G0 Z0\nM2\n',
    ],
    ['a short plain move', 'rs274ngc', 'G21 G91 G94\nG38.2 Z-10 F40\nG1 Z0.1 F40\nG0 Z5\nM2\n'],
    ['the macro family has no such limit', 'macro', 'G21 G91 G94\nG31 Z-0.1 F40.\nG0 Z5.\nM30\n'],
    [
      'nor in absolute positions',
      'macro',
      `G21 G90 G94
G0 Z0.1
G31 Z0. F40.
G0 Z5.
M30
`,
    ],
  ],
);

describe('probe-travel-too-short', () => {
  // NISTIR 6556, 3.5.9.1 (cases RS-PROBE-1, -2, -4: derived from the rule): 0.2 mm and nothing at all are errors,
  // 0.254 mm and 0.0101 in are not.
  it.each([
    ['G21 G90 G94\nG0 X0 Y0 Z0\nG38.2 X0.2 F100\nG0 X-5\nM2\n', ['3 probe-travel-too-short']],
    ['G21 G90 G94\nG0 X0 Y0 Z0\nG38.2 X0.254 F100\nG0 X-5\nM2\n', []],
    ['G20 G90 G94\nG0 X0 Y0 Z0\nG38.2 Z-0.0101 F10\nG0 Z5\nM2\n', []],
  ])('%j', (program, expected) => {
    expect(told(checkText(program, { dialect: 'rs274ngc' }).findings)).toEqual(expected);
  });
});
