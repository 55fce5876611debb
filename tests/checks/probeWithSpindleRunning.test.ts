import { testRule } from './rulePrograms.ts';

testRule(
  'probe-with-spindle-running',
  [
    [
      'inline',
      'rs274ngc',
      'G21 G90 G94\nM3 S3000\nG38.2 Z-10 F40 ;! probe-with-spindle-running\nG0 Z5\nM2\n',
    ],
    [
      'counter-clockwise, before a pause',
      'rs274ngc',
      'G21 G90 G94\nM4 S300\nM0\nG38.2 Z-10 F40 ;! probe-with-spindle-running\nG0 Z5\nM2\n',
    ],
    [
      'stopped on one branch only',
      'rs274ngc',
      'G21 G90 G94\nM3 S300\no1 if [#1 GT 0]\n  M5\no1 endif\nG38.2 Z-10 F40 ;! probe-with-spindle-running\nG0 Z5\nM2\n',
    ],
    [
      'in a called subroutine, second call only',
      'rs274ngc',
      'G21 G90 G94\no<d> sub\n  G38.2 Z-10 F40 ;! probe-with-spindle-running\n  G0 Z5\no<d> endsub\no<d> call\nM3 S300\no<d> call\nM2\n',
    ],
    [
      'started at the end of a loop’s turn',
      'rs274ngc',
      'G21 G91 G94\no1 repeat [2]\n  G38.2 Z-10 F40 ;! probe-with-spindle-running\n  G0 Z5\n  M3 S300\no1 endrepeat\nM2\n',
    ],
    [
      'started in the touch’s own block',
      'rs274ngc',
      'G21 G90 G94\nG38.2 Z-10 F40 M3 S300 ;! probe-with-spindle-running\nG0 Z5\nM2\n',
    ],
    [
      'started in the block of the tool change',
      'rs274ngc',
      'G21 G90 G94\nM3 S100 T9 M6\nG38.2 Z-10 F40 ;! probe-with-spindle-running\nG0 Z5\nM2\n',
    ],
    ['inline', 'macro', 'G21 G90 G94\nS3000 M3\nG31 Z-10. F40. ;! probe-with-spindle-running\nG0 Z5.\nM30\n'],
    [
      'in a subprogram of the same file',
      'macro',
      'O0100\nG21 G90 G94\nS500 M4\nM98 P200\nM30\nO0200\nG31 Z-10. F40. ;! probe-with-spindle-running\nG0 Z5.\nM99\n',
    ],
  ],
  [
    ['never started', 'rs274ngc', 'G21 G90 G94\nG38.2 Z-10 F40\nG0 Z5\nM2\n'],
    ['stopped before', 'rs274ngc', 'G21 G90 G94\nM3 S300\nG1 X5 F100\nM5\nG38.2 Z-10 F40\nG0 Z5\nM2\n'],
    [
      'the tool change stops it',
      'rs274ngc',
      'G21 G90 G94\nM3 S300\nG1 X5 F100\nT9 M6\nG38.2 Z-10 F40\nG0 Z5\nM2\n',
    ],
    ['started after the touch', 'rs274ngc', 'G21 G90 G94\nG38.2 Z-10 F40\nG0 Z5\nM3 S300\nG1 X5 F100\nM2\n'],
    [
      'at the entry it is not known',
      'rs274ngc',
      'o<d> sub\n  G21 G90 G94\n  G38.2 Z-10 F40\n  G0 Z5\no<d> endsub\n',
    ],
    [
      'the subroutine stops it',
      'rs274ngc',
      'G21 G90 G94\nM3 S300\no<d> sub\n  M5\n  G38.2 Z-10 F40\n  G0 Z5\no<d> endsub\no<d> call\nM2\n',
    ],
    ['stopped in the touch’s own block', 'rs274ngc', 'G21 G90 G94\nM3 S300\nM5 G38.2 Z-10 F40\nG0 Z5\nM2\n'],
    ['stopped and oriented', 'macro', 'G21 G90 G94\nM3 S300\nM5\nM19\nG31 Z-10. F40.\nG0 Z5.\nM30\n'],
    [
      'a branch that stops it is the only one that touches',
      'macro',
      'G21 G90 G94\nM3 S300\nIF[#1EQ1]GOTO9\nM5\nG31 Z-10. F40.\nG0 Z5.\nN9 M30\n',
    ],
  ],
);
