import { testRule } from './rulePrograms.ts';

testRule(
  'probe-in-inverse-time',
  [
    ['inline', 'rs274ngc', 'G21 G90 G93\nG0 Z5\nG38.2 Z-10 F4 ;! probe-in-inverse-time\nG0 Z5\nM2\n'],
    [
      'in the touch’s own block',
      'rs274ngc',
      'G21 G90 G94\nG0 Z5\nG93 G38.2 Z-10 F4 ;! probe-in-inverse-time\nG0 Z5\nM2\n',
    ],
    [
      'left over on one branch',
      'rs274ngc',
      'G21 G91 G94\no1 if [#1 GT 0]\n  G93\no1 endif\nG38.2 Z-10 F4 ;! probe-in-inverse-time\nG0 Z5\nM2\n',
    ],
    [
      'set by the caller',
      'rs274ngc',
      'G21 G91 G93\no<d> sub\n  G38.2 Z-10 F4 ;! probe-in-inverse-time\n  G0 Z5\no<d> endsub\no<d> call\nM2\n',
    ],
    [
      'set at the end of a loop’s turn',
      'rs274ngc',
      'G21 G91 G94\no1 repeat [2]\n  G38.2 Z-10 F4 ;! probe-in-inverse-time\n  G0 Z5\n  G93\no1 endrepeat\nM2\n',
    ],
    ['inline', 'macro', 'G21 G91 G93\nG31 Z-10. F4. ;! probe-in-inverse-time\nG0 Z5.\nM30\n'],
    [
      'in a subprogram of the same file',
      'macro',
      'O0100\nG21 G91 G93\nM98 P200\nM30\nO0200\nG31 Z-10. F4. ;! probe-in-inverse-time\nG0 Z5.\nM99\n',
    ],
    [
      'on the second turn of a loop',
      'macro',
      `G21 G91 G94
#100=0
WHILE[#100LT2]DO1
G31 Z-10. F40. ;! probe-in-inverse-time
G0 Z10.
G93 G1 X5. F4.
#100=#100+1
END1
G94
M30
`,
    ],
  ],
  [
    ['feed per minute', 'rs274ngc', 'G21 G90 G94\nG38.2 Z-10 F40\nG0 Z5\nM2\n'],
    ['taken back before', 'rs274ngc', 'G21 G90 G93\nG1 X5 F4\nG94\nG38.2 Z-10 F40\nG0 Z5\nM2\n'],
    [
      'taken back in the touch’s own block',
      'rs274ngc',
      'G21 G90 G93\nG1 X5 F4\nG94 G38.2 Z-10 F40\nG0 Z5\nM2\n',
    ],
    ['put in force after the touch', 'rs274ngc', 'G21 G90 G94\nG38.2 Z-10 F40\nG0 Z5\nG93\nG1 X5 F4\nM2\n'],
    [
      'saved and restored modes',
      'rs274ngc',
      'G21 G90 G94\nM70\nG93\nG1 X5 F4\nM72\nG38.2 Z-10 F40\nG0 Z5\nM2\n',
    ],
    ['no touch at all', 'rs274ngc', 'G21 G90 G93\nG1 X5 F4\nG1 X6 F4\nM2\n'],
    [
      'taken back on both branches',
      'macro',
      'G21 G91 G93\nIF[#1EQ1]GOTO5\nG94\nGOTO6\nN5 G94\nN6 G31 Z-10. F40.\nG0 Z5.\nM30\n',
    ],
    [
      'ended before the touch',
      'macro',
      `G21 G91 G93
G1 X5. F4.
G94
G31 Z-10. F40.
G0 Z10.
M30
`,
    ],
    [
      'in a subprogram that ends it itself',
      'macro',
      `O1
G21 G91 G93
G1 X5. F4.
M98 P2
M30
O2
G94
G31 Z-10. F40.
G0 Z10.
M99
`,
    ],
  ],
);
