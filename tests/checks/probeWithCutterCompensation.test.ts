import { testRule } from './rulePrograms.ts';

testRule(
  'probe-with-cutter-compensation',
  [
    [
      'inline, left',
      'rs274ngc',
      'G21 G90 G94\nG41 D3\nG38.2 Z-10 F40 ;! probe-with-cutter-compensation\nG0 Z5\nM2\n',
    ],
    [
      'right, given in the block',
      'rs274ngc',
      'G21 G90 G94\nG42.1 D6\nG38.2 Z-10 F40 ;! probe-with-cutter-compensation\nG0 Z5\nM2\n',
    ],
    [
      'cancelled on one branch only',
      'rs274ngc',
      'G21 G90 G94\nG41 D3\no1 if [#1 GT 0]\n  G40\no1 endif\nG38.2 Z-10 F40 ;! probe-with-cutter-compensation\nG0 Z5\nM2\n',
    ],
    [
      'set by the caller',
      'rs274ngc',
      'G21 G90 G94\nG41 D3\no<d> sub\n  G38.2 Z-10 F40 ;! probe-with-cutter-compensation\n  G0 Z5\no<d> endsub\no<d> call\nM2\n',
    ],
    [
      'left on at the end of a loop’s turn',
      'rs274ngc',
      'G21 G91 G94\no1 repeat [2]\n  G38.2 Z-10 F40 ;! probe-with-cutter-compensation\n  G0 Z5\n  G41 D3\n  G1 X5\no1 endrepeat\nM2\n',
    ],
    [
      'inline',
      'macro',
      'G21 G90 G94\nG42 D3\nG31 Z-10. F40. ;! probe-with-cutter-compensation\nG0 Z5.\nM30\n',
    ],
    [
      'a jump passes the G40 by',
      'macro',
      'G21 G90 G94\nG41 D3\nIF[#1EQ1]GOTO5\nG40\nN5 G31 Z-10. F40. ;! probe-with-cutter-compensation\nG0 Z5.\nM30\n',
    ],
  ],
  [
    ['never on', 'rs274ngc', 'G21 G90 G94\nG38.2 Z-10 F40\nG0 Z5\nM2\n'],
    ['cancelled before', 'rs274ngc', 'G21 G90 G94\nG41 D3\nG1 X5 F100\nG40\nG38.2 Z-10 F40\nG0 Z5\nM2\n'],
    ['cancelled in the start block', 'rs274ngc', 'G17 G21 G40 G49 G90 G94\nG38.2 Z-10 F40\nG0 Z5\nM2\n'],
    ['on after the touch', 'rs274ngc', 'G21 G90 G94\nG38.2 Z-10 F40\nG0 Z5\nG41 D3\nG1 X5 F100\nG40\nM2\n'],
    [
      'at the entry it is not known',
      'rs274ngc',
      'o<d> sub\n  G21 G90 G94\n  G38.2 Z-10 F40\n  G0 Z5\no<d> endsub\n',
    ],
    [
      'the subroutine cancels it',
      'rs274ngc',
      'G21 G90 G94\nG41 D3\no<d> sub\n  G40\n  G38.2 Z-10 F40\n  G0 Z5\no<d> endsub\no<d> call\nM2\n',
    ],
    [
      'the direction of the tool is no compensation',
      'macro',
      'G21 G90 G94\nG41.1\nG31 Z-10. F40.\nG0 Z5.\nG40.1\nM30\n',
    ],
    [
      'cancelled on every way',
      'macro',
      'G21 G90 G94\nG42 D3\nIF[#1EQ1]GOTO5\nG40\nGOTO6\nN5 G40\nN6 G31 Z-10. F40.\nG0 Z5.\nM30\n',
    ],
  ],
);
