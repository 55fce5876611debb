import { testRule } from './rulePrograms.ts';

const mark = ';! mode-not-restored';
const calling = 'G17 G21 G90 G94\no<go> call [1]\nG0 X5\nM2\n';

testRule(
  'mode-not-restored',
  [
    ['incremental', 'rs274ngc', `o<go> sub\n  G91\n  G1 Z-1 F300\no<go> endsub ${mark}\n${calling}`],
    ['inches', 'rs274ngc', `o<go> sub\n  G20\n  G1 X1 F300\no<go> endsub ${mark}\n${calling}`],
    [
      'the plane, restored on the other path',
      'rs274ngc',
      `o<go> sub\n  G18\n  o1 if [#1 GT 0]\n    o<go> return ${mark}\n  o1 endif\n  G17\no<go> endsub\n${calling.replace('[1]', '[#<_n>]')}`,
    ],
    [
      'inverse time, in a loop of the caller',
      'rs274ngc',
      `o<go> sub\n  G93\n  G1 X1 F3\no<go> endsub ${mark}\nG17 G21 G90 G94\no1 repeat [3]\n  o<go> call\n  G1 X5 F300\no1 endrepeat\nM2\n`,
    ],
    [
      'a subroutine that its caller’s caller pays for',
      'rs274ngc',
      `o<in> sub\n  G91\n  G1 Z-1 F300\no<in> endsub ${mark}\no<go> sub\n  o<in> call\n  G1 Z2\n  G90\no<go> endsub\n${calling}`,
    ],
    [
      'absolute, where the caller is incremental',
      'rs274ngc',
      `o<go> sub\n  G90\n  G53 G0 Z0\no<go> endsub ${mark}\nG17 G21 G91 G94\no<go> call\nG0 X5\nM2\n`,
    ],
    [
      'nobody calls it, and two paths differ',
      'rs274ngc',
      `o<go> sub\n  G91\n  G1 Z-5 F40\n  G0 Z5\n  o1 if [#1 GT 0]\n    o<go> return [1] ${mark}\n  o1 endif\n  G90\no<go> endsub [0]\n`,
    ],
    [
      'incremental',
      'macro',
      `O1\nG17 G21 G90 G94\nM98 P2\nG0 X5.\nM30\nO2\nG91 G1 Z-1. F300.\nM99 ${mark}\n`,
    ],
    [
      'the failing side of a macro',
      'macro',
      `O1\nG17 G21 G90 G94\nG65 P2 A#101\nG0 X5.\nM30\nO2\nG91 G1 Z-1. F300.\nIF[#1EQ0]GOTO9\nG90\nM99\nN9 #130=1\nM99 ${mark}\n`,
    ],
  ],
  [
    ['restored', 'rs274ngc', `o<go> sub\n  G91\n  G1 Z-1 F300\n  G90\no<go> endsub\n${calling}`],
    [
      'kept and restored',
      'rs274ngc',
      `o<go> sub\n  M70\n  G91 G20\n  G1 Z-1 F300\n  M72\no<go> endsub\n${calling}`,
    ],
    [
      'restored by the return',
      'rs274ngc',
      `o<go> sub\n  M73\n  G91\n  G1 Z-1 F300\no<go> endsub\n${calling}`,
    ],
    [
      'the caller sets it on every block',
      'rs274ngc',
      'o<go> sub\n  G91\n  G1 Z-1 F300\no<go> endsub\nG17 G21 G90 G94\no<go> call\nG90 G0 X5\no<go> call\n(next)\nG90 G0 X9\nM2\n',
    ],
    [
      'nothing but the end follows',
      'rs274ngc',
      'o<go> sub\n  G91\n  G1 Z-1 F300\no<go> endsub\nG17 G21 G90 G94\no<go> call\nM5\nM2\n',
    ],
    [
      'the caller has set nothing',
      'rs274ngc',
      'o<go> sub\n  G17 G21 G90 G94\no<go> endsub\no<go> call\nG0 X5\nM2\n',
    ],
    ['nobody calls it', 'rs274ngc', 'o<go> sub\n  G91\n  G1 Z-1 F300\no<go> endsub\n'],
    [
      'what it was',
      'macro',
      'O1\nG17 G21 G90 G94\nM98 P2\nG0 X5.\nM30\nO2\n#10=#4003\nG91 G1 Z-1. F300.\nG#10\nM99\n',
    ],
    [
      'entered in the same mode',
      'macro',
      'O1\nG17 G21 G91 G94\nM98 P2\nG0 X5.\nM30\nO2\nG91 G1 Z-1. F300.\nM99\n',
    ],
  ],
);
