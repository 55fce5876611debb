import { testRule } from './rulePrograms.ts';

testRule(
  'duplicate-label',
  [
    [
      'a label twice',
      'macro',
      'G21 G90 G94\nIF[#101GT2]GOTO10\nN10 G0 X5.\nN10 G0 X6. ;! duplicate-label\nM30\n',
    ],
    ['written with zeros', 'macro', 'G21 G90 G94\nGOTO1\nN0001 G0 X5.\nN1 M0 ;! duplicate-label\nM30\n'],
    [
      'three times',
      'macro',
      'G21 G90 G94\nN5 #101=#101+1\nIF[#101LT3]GOTO5\nN5 G0 X5. ;! duplicate-label\nN5 M0 ;! duplicate-label\nM30\n',
    ],
    [
      'in a subprogram, inside a loop',
      'macro',
      'O1\nG21 G90 G94\nM98 P2\nM30\nO2\nWHILE[#101LT3]DO1\nIF[#102EQ1]GOTO7\n#101=#101+1\nN7 END1\nN7 M99 ;! duplicate-label\n',
    ],
    [
      'a subprogram twice',
      'macro',
      'O1\nG21 G90 G94\nM98 P2\nM30\nO2\nG0 X5.\nM99\nO2 ;! duplicate-label\nG0 X6.\nM99\n',
    ],
    [
      'a macro twice, called with arguments',
      'macro',
      'O1\nG21 G90 G94\nIF[#101EQ1]GOTO3\nG65 P20 A1.\nN3 M30\nO0020\nG0 X#1\nM99\nO20 ;! duplicate-label\nG0 Y#1\nM99\n',
    ],
    [
      'a subroutine twice',
      'rs274ngc',
      'o<up> sub\n  G0 Z5\no<up> endsub\no<up> sub ;! duplicate-label\n  G0 Z9\no<up> endsub\nG21 G90 G94\no<up> call\nM2\n',
    ],
    [
      'a numbered subroutine twice, called in a loop',
      'rs274ngc',
      'G21 G90 G94\no100 sub\n  G0 Z5\no100 endsub\no1 repeat [2]\n  o100 call\no1 endrepeat\no100 sub ;! duplicate-label\n  G0 Z9\no100 endsub\nM2\n',
    ],
    [
      'capitals and blanks make no other name',
      'rs274ngc',
      'o<Up> sub\n  G0 Z5\no<Up> endsub\no<u p> sub ;! duplicate-label\n  G0 Z9\no<u p> endsub\nG21 G90 G94\no<up> call\nM2\n',
    ],
  ],
  [
    ['nothing jumps to it', 'macro', 'G21 G90 G94\nIF[#101GT2]GOTO20\nN10 G0 X5.\nN10 G0 X6.\nN20 M30\n'],
    ['one label in two programs', 'macro', 'O1\nG21 G90 G94\nGOTO5\nN5 M98 P2\nM30\nO2\nGOTO5\nN5 M99\n'],
    [
      'block numbers of a milling program',
      'macro',
      'G21 G90 G94\nN10 G0 X5.\nN20 G0 X6.\nN10 G0 X5.\nN20 G0 X6.\nM30\n',
    ],
    ['a computed jump', 'macro', 'G21 G90 G94\nGOTO#101\nN10 G0 X5.\nN10 G0 X6.\nM30\n'],
    ['two jumps to one label', 'macro', 'G21 G90 G94\nIF[#101GT2]GOTO10\nIF[#102GT2]GOTO10\nN10 M30\n'],
    [
      'one number for two structures',
      'rs274ngc',
      'G21 G90 G94\no1 if [#1 GT 2]\n  G0 X5\no1 endif\no1 if [#1 GT 3]\n  G0 X6\no1 endif\nM2\n',
    ],
    [
      'a subroutine called twice',
      'rs274ngc',
      'o<up> sub\n  G0 Z5\no<up> endsub\nG21 G90 G94\no<up> call\no<up> call\nM2\n',
    ],
    [
      'a subroutine twice that nobody calls',
      'rs274ngc',
      'o<up> sub\n  G0 Z5\no<up> endsub\no<up> sub\n  G0 Z9\no<up> endsub\nG21 G90 G94\nG0 X1\nM2\n',
    ],
    ['N numbers mean nothing', 'rs274ngc', 'G21 G90 G94\nN10 G0 X5\nN10 G0 X6\nM2\n'],
  ],
);
