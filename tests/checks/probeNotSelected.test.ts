import { testRule } from './rulePrograms.ts';

const shop = '{ "probe": { "tool": 99 } }';

testRule(
  'probe-not-selected',
  [
    [
      'the cutter still there',
      'rs274ngc',
      'G21 G90 G94\nT4 M6\nG38.2 Z-10 F40 ;! probe-not-selected\nG0 Z5\nM2\n',
      shop,
    ],
    [
      'selected, not changed',
      'rs274ngc',
      'G21 G90 G94\nT4 M6\nT99\nG38.2 Z-10 F40 ;! probe-not-selected\nG0 Z5\nM2\n',
      shop,
    ],
    [
      'in a called subroutine',
      'rs274ngc',
      'o<top> sub\n  G38.2 Z-10 F40 ;! probe-not-selected\n  G0 Z5\no<top> endsub\nG21 G90 G94\nT4\nM6\nG1 X5 F300\no<top> call\nM2\n',
      shop,
    ],
    [
      'on one branch',
      'rs274ngc',
      'G21 G90 G94\nT99 M6\no1 if [#<_rough> GT 0]\n  T4 M6\n  G1 X5 F300\no1 endif\nG38.2 Z-10 F40 ;! probe-not-selected\nG0 Z5\nM2\n',
      shop,
    ],
    [
      'the second time round a loop',
      'rs274ngc',
      'G21 G90 G94\nT99 M6\no1 repeat [2]\n  G38.2 Z-10 F40 ;! probe-not-selected\n  G0 Z5\n  T4 M6\n  G1 X5 F300\no1 endrepeat\nM2\n',
      shop,
    ],
    [
      'told which one is there',
      'rs274ngc',
      'G21 G90 G94\nM61 Q4\nG38.2 Z-10 F40 ;! probe-not-selected\nG0 Z5\nM2\n',
      shop,
    ],
    [
      'by a variable that is set',
      'rs274ngc',
      'G21 G90 G94\n#<cutter>=4\nT#<cutter> M6\nG38.2 Z-10 F40 ;! probe-not-selected\nG0 Z5\nM2\n',
      shop,
    ],
    ['a skip move', 'macro', 'G21 G90 G94\nM6 T4\nG31 Z-10. F40. ;! probe-not-selected\nG0 Z5.\nM30\n', shop],
    [
      'in a called subprogram',
      'macro',
      'O1\nG21 G90 G94\nT4 M6\nM98 P2\nM30\nO2\nG31 Z-10. F40. ;! probe-not-selected\nG0 Z5.\nM99\n',
      shop,
    ],
  ],
  [
    ['the probe', 'rs274ngc', 'G21 G90 G94\nT4 M6\nG1 X5 F300\nT99 M6\nG38.2 Z-10 F40\nG0 Z5\nM2\n', shop],
    ['no change in the program', 'rs274ngc', 'G21 G90 G94\nG38.2 Z-10 F40\nG0 Z5\nM2\n', shop],
    ['the profile names no probe', 'rs274ngc', 'G21 G90 G94\nT4 M6\nG38.2 Z-10 F40\nG0 Z5\nM2\n'],
    [
      'a tool that an input chooses',
      'rs274ngc',
      'G21 G90 G94\nT#<_tool> M6\nG38.2 Z-10 F40\nG0 Z5\nM2\n',
      shop,
    ],
    [
      'a subroutine that nobody calls',
      'rs274ngc',
      'G21 G90 G94\nT4 M6\nG1 X5 F300\nM2\no<top> sub\n  G21 G90 G94\n  G38.2 Z-10 F40\n  G0 Z5\no<top> endsub\n',
      shop,
    ],
    [
      'changed on both branches',
      'rs274ngc',
      'G21 G90 G94\nT4 M6\no1 if [#<_x> GT 0]\n  T99 M6\no1 else\n  T99\n  M6\no1 endif\nG38.2 Z-10 F40\nG0 Z5\nM2\n',
      shop,
    ],
    [
      'the cutter comes after',
      'macro',
      'G21 G90 G94\nT99 M6\nG31 Z-10. F40.\nG0 Z5.\nT4 M6\nG1 X5. F300.\nM30\n',
      shop,
    ],
    ['no touch', 'macro', 'G21 G90 G94\nT4 M6\nG1 X5. F300.\nM30\n', shop],
  ],
);
