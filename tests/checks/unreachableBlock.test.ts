import { testRule } from './rulePrograms.ts';

const mark = ';! unreachable-block';

testRule(
  'unreachable-block',
  [
    [
      'behind a jump',
      'macro',
      `G21 G90 G94\nIF[#101GT2]GOTO10\nG0 X5.\nGOTO20\nG0 Z50. ${mark}\nN10 G0 X6.\nN20 M30\n`,
    ],
    [
      'behind an alarm',
      'macro',
      `G21 G90 G94\nIF[#101GT2]GOTO10\n#3000=1(NO CONTACT)\nG0 Z50. ${mark}\nN10 M30\n`,
    ],
    ['behind a return', 'macro', `O1\nG21 G90 G94\nM98 P2\nM30\nO2\nG0 X5.\nM99\nG0 Z50. ${mark}\nG0 X1.\n`],
    ['behind the end', 'macro', `G21 G90 G94\nG0 X5.\nM30\nG0 Z50. ${mark}\n`],
    [
      'behind a return, in a called subroutine',
      'rs274ngc',
      `o<go> sub\n  G0 X5\n  o<go> return\n  G0 Z50 ${mark}\no<go> endsub\nG21 G90 G94\no<go> call\nM2\n`,
    ],
    [
      'behind the return of a branch',
      'rs274ngc',
      `o<go> sub\n  o1 if [#1 GT 0]\n    o<go> return\n    #<_z>=50 ${mark}\n    G0 Z#<_z>\n  o1 endif\n  G0 X5\no<go> endsub\nG21 G90 G94\no<go> call [1]\nM2\n`,
    ],
    [
      'behind a break, in a loop',
      'rs274ngc',
      `G21 G90 G94\no1 while [#1 LT 3]\n  #1=[#1 + 1]\n  o1 break\n  G0 X5 ${mark}\no1 endwhile\nM2\n`,
    ],
    [
      'two runs',
      'rs274ngc',
      `G21 G90 G94\no1 if [#1 GT 3]\n  M2\n  G0 X5 ${mark}\no1 endif\nM2\nG0 X6 ${mark}\n`,
    ],
  ],
  [
    [
      'everything is reached',
      'macro',
      'G21 G90 G94\nIF[#101GT2]GOTO10\nG0 X5.\nGOTO20\nN10 G0 X6.\nN20 M30\n',
    ],
    ['a computed jump', 'macro', 'G21 G90 G94\nGOTO#101\nN10 G0 X5.\nM30\nN20 G0 X6.\nM30\n'],
    ['a jump that may be skipped', 'macro', 'G21 G90 G94\nG0 X5.\n/GOTO20\nG0 X6.\nN20 M30\n'],
    ['an end that may be skipped', 'macro', 'G21 G90 G94\nG0 X5.\n/M30\nG0 X6.\nM30\n'],
    [
      'a label that a called file may return to',
      'macro',
      'G21 G90 G94\nG65 P9100\nG0 X5.\nM30\nN100 G0 Z50.\nM30\n',
    ],
    ['a part that M97 runs', 'macro', 'G21 G90 G94\nM97 P100\nM30\nN100 G0 Z50.\nM99\n'],
    ['ends and comments behind the end', 'macro', '%\nO1\nG21 G90 G94\nG0 X5.\nM30\n(done)\nM99\n%\n'],
    ['a loop without end', 'rs274ngc', 'G21 G90 G94\no1 while [1]\n  G0 X5\n  G0 X6\no1 endwhile\nM2\n'],
    ['switched off on purpose', 'rs274ngc', 'G21 G90 G94\no1 if [0]\n  G0 X5\no1 endif\nM2\n'],
    [
      'both branches return',
      'rs274ngc',
      'o<go> sub\n  o1 if [#1 GT 0]\n    o<go> return [1]\n  o1 else\n    o<go> return [2]\n  o1 endif\no<go> endsub\nG21 G90 G94\no<go> call [1]\nM2\n',
    ],
    [
      'subroutines behind the end',
      'rs274ngc',
      'G21 G90 G94\no<go> call\nM2\no<go> sub\n  G0 X5\no<go> endsub\nM2\n',
    ],
  ],
);
