import { testRule } from './rulePrograms.ts';

testRule(
  'probe-with-coolant',
  [
    ['flood, inline', 'rs274ngc', 'G21 G90 G94\nM8\nG38.2 Z-10 F40 ;! probe-with-coolant\nG0 Z5\nM2\n'],
    [
      'mist, in the block before',
      'rs274ngc',
      'G21 G90 G94 M7\nG38.2 Z-10 F40 ;! probe-with-coolant\nG0 Z5\nM2\n',
    ],
    [
      'both, one turned on by each',
      'rs274ngc',
      'G21 G90 G94\nM7\nM8\nG38.2 Z-10 F40 ;! probe-with-coolant\nG0 Z5\nM2\n',
    ],
    [
      'on one branch',
      'rs274ngc',
      'G21 G90 G94\no1 if [#<_wet> GT 0]\n  M8\no1 endif\nG38.2 Z-10 F40 ;! probe-with-coolant\nG0 Z5\nM2\n',
    ],
    [
      'the caller left it on',
      'rs274ngc',
      'o<top> sub\n  G38.2 Z-10 F40 ;! probe-with-coolant\n  G0 Z5\no<top> endsub\nG21 G90 G94\nM8\nG1 X5 F300\no<top> call\nM2\n',
    ],
    [
      'a skip move',
      'macro',
      'G21 G90 G94\nM8\nG1 X5. F300.\nG31 Z-10. F40. ;! probe-with-coolant\nG0 Z5.\nM30\n',
    ],
    [
      'left on by a subprogram',
      'macro',
      `O1
G21 G90 G94
M98 P2
G31 Z-10. F40. ;! probe-with-coolant
G0 Z5.
M30
O2
M8
G1 X5. F300.
M99
`,
    ],
    [
      'on one branch',
      'macro',
      `G21 G90 G94
IF[#500EQ1]GOTO5
M7
N5 G31 Z-10. F40. ;! probe-with-coolant
G0 Z5.
M30
`,
    ],
  ],
  [
    ['turned off before', 'rs274ngc', 'G21 G90 G94\nM8\nG1 X5 F300\nM9\nG38.2 Z-10 F40\nG0 Z5\nM2\n'],
    ['turned on after', 'rs274ngc', 'G21 G90 G94\nG38.2 Z-10 F40\nG0 Z5\nM8\nG1 X5 F300\nM2\n'],
    ['nothing said', 'rs274ngc', 'G21 G90 G94\nG38.2 Z-10 F40\nG0 Z5\nM2\n'],
    ['no touch', 'rs274ngc', 'G21 G90 G94\nM8\nG1 X5 F300\nM9\nM2\n'],
    [
      'a subroutine that nobody calls',
      'rs274ngc',
      'G21 G90 G94\no<top> sub\n  G21 G90 G94\n  G38.2 Z-10 F40\n  G0 Z5\no<top> endsub\nM2\n',
    ],
    [
      'turned off by both branches',
      'rs274ngc',
      'G21 G90 G94\nM8\no1 if [#<_x> GT 0]\n  M9\no1 else\n  M9\no1 endif\nG38.2 Z-10 F40\nG0 Z5\nM2\n',
    ],
    ['off with the spindle', 'macro', 'G21 G90 G94\nM8\nG1 X5. F300.\nM5 M9\nG31 Z-10. F40.\nG0 Z5.\nM30\n'],
    [
      'ended by a subprogram',
      'macro',
      `O1
G21 G90 G94
M8
G1 X5. F300.
M98 P2
G31 Z-10. F40.
G0 Z5.
M30
O2
M9
M5
M99
`,
    ],
    [
      'ended on both branches',
      'macro',
      `G21 G90 G94
M8
G1 X5. F300.
IF[#500EQ1]GOTO5
M9
GOTO6
N5 M9
N6 G31 Z-10. F40.
G0 Z5.
M30
`,
    ],
  ],
);
