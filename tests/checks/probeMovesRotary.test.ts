import { describe, expect, it } from 'vitest';
import { checkText } from './marked.ts';
import { testRule } from './rulePrograms.ts';

testRule(
  'probe-moves-rotary',
  [
    ['inline', 'rs274ngc', 'G21 G90 G94\nG0 A0\nG38.2 Z-10 A15 F40 ;! probe-moves-rotary\nG0 Z5\nM2\n'],
    ['incremental', 'rs274ngc', 'G21 G91 G94\nG38.2 Z-10 B5 F40 ;! probe-moves-rotary\nG0 Z5\nM2\n'],
    [
      'from a position that is not known',
      'rs274ngc',
      'G21 G90 G94\nG38.2 Z-10 A15 F40 ;! probe-moves-rotary\nG0 Z5\nM2\n',
    ],
    [
      'in a called subroutine',
      'rs274ngc',
      'G21 G90 G94\nG0 C0\no<d> sub\n  G38.2 Z-10 C#1 F40 ;! probe-moves-rotary\n  G0 Z5\no<d> endsub\no<d> call [0]\no<d> call [90]\nM2\n',
    ],
    [
      'turned on one branch',
      'rs274ngc',
      'G21 G90 G94\nG0 A0\no1 if [#1 GT 0]\n  G0 A10\no1 endif\nG38.2 Z-10 A0 F40 ;! probe-moves-rotary\nG0 Z5\nM2\n',
    ],
    [
      'a rotary axis alone',
      'rs274ngc',
      'G21 G90 G94\nG0 A0\nG38.2 A15 F40 ;! probe-moves-rotary\nG0 A0\nM2\n',
    ],
    [
      'with a linear axis',
      'macro',
      'G21 G90 G94\nG0 B0.\nG31 Z-10. B90. F40. ;! probe-moves-rotary\nG0 Z5.\nM30\n',
    ],
    [
      'in a subprogram, by its argument',
      'macro',
      `O1
G21 G90 G94
G0 B0.
G65 P2 B30.
M30
O2
G31 Z-10. B#2 F40. ;! probe-moves-rotary
G0 Z5.
M99
`,
    ],
    [
      'a step under G91',
      'macro',
      `G21 G91 G94
G31 X10. A2. F40. ;! probe-moves-rotary
G0 X-10.
G90
M30
`,
    ],
  ],
  [
    ['it stands there already', 'rs274ngc', 'G21 G90 G94\nG0 A15\nG38.2 Z-10 A15 F40\nG0 Z5\nM2\n'],
    ['incremental, by nothing', 'rs274ngc', 'G21 G91 G94\nG38.2 Z-10 A0 F40\nG0 Z5\nM2\n'],
    ['turned in a block of its own', 'rs274ngc', 'G21 G90 G94\nG0 A15\nG38.2 Z-10 F40\nG0 Z5\nG0 A0\nM2\n'],
    [
      'an argument puts it where it stands',
      'rs274ngc',
      'G21 G90 G94\nG0 C90\no<d> sub\n  G38.2 Z-10 C#1 F40\n  G0 Z5\no<d> endsub\no<d> call [90]\nM2\n',
    ],
    [
      'in a loop, always the same',
      'rs274ngc',
      'G21 G91 G94\no1 repeat [3]\n  G38.2 Z-10 A0 F40\n  G0 Z5\n  G0 A10\no1 endrepeat\nM2\n',
    ],
    ['a rotary axis alone', 'macro', 'G21 G90 G94\nG0 C0.\nG31 C20. F40.\nG0 C0.\nM30\n'],
    ['a linear secondary axis is none', 'rs274ngc', 'G21 G90 G94\nG0 W0\nG38.2 Z-10 W5 F40\nG0 Z5 W0\nM2\n'],
    [
      'turned before',
      'macro',
      `G21 G90 G94
G0 B90.
G31 Z-10. F40.
G0 Z5.
M30
`,
    ],
    [
      'to where it stands',
      'macro',
      `G21 G90 G94
G0 B90.
G31 Z-10. B90. F40.
G0 Z5.
M30
`,
    ],
  ],
);

describe('probe-moves-rotary', () => {
  const severity = (program: string) =>
    checkText(program, { dialect: 'rs274ngc' }).findings.map((finding) => finding.severity);

  it('is an error where the axis would move, a warning where that is not known', () => {
    expect(severity('G21 G91 G94\nG38.2 Z-10 A5 F40\nG0 Z5\nM2\n')).toEqual(['error']);
    expect(severity('G21 G90 G94\nG38.2 Z-10 A5 F40\nG0 Z5\nM2\n')).toEqual(['warning']);
  });
});
