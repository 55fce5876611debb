import { testRule } from './rulePrograms.ts';

testRule(
  'unmatched-flow',
  [
    ['an if without its end', 'rs274ngc', 'G21 G90 G94\no1 if [#1 GT 2] ;! unmatched-flow\n  G0 X5\nM2\n'],
    ['an endif without its start', 'rs274ngc', 'G21 G90 G94\nG0 X5\no1 endif ;! unmatched-flow\nM2\n'],
    [
      'labels that differ',
      'rs274ngc',
      'G21 G90 G94\no1 while [#1 LT 2]\n  #1 = [#1 + 1]\no2 endwhile ;! unmatched-flow\nM2\n'.replace(
        'LT 2]',
        'LT 2] ;! unmatched-flow',
      ),
    ],
    [
      'endsub inside an if',
      'rs274ngc',
      'G21 G90 G94\no<a> sub\n  o1 if [#1 GT 2]\n    o<a> endsub ;! unmatched-flow\n  o1 endif\nM2\n',
    ],
    [
      'endsub inside an if, and the true one behind',
      'rs274ngc',
      'G21 G90 G94\no<a> sub\n  o1 if [#1 GT 2]\n    o<a> endsub ;! unmatched-flow\n  o1 endif\n  G0 X5\no<a> endsub\no<a> call [1]\nM2\n',
    ],
    [
      'an if without its end, in a sub',
      'rs274ngc',
      'G21 G90 G94\no<a> sub\n  o1 if [#1 GT 2] ;! unmatched-flow\n    G0 X5\no<a> endsub\no<a> call [1]\nM2\n',
    ],
    ['a break outside any loop', 'rs274ngc', 'G21 G90 G94\no1 break ;! unmatched-flow\nM2\n'],
    ['a sub without its end', 'rs274ngc', 'G21 G90 G94\no<a> sub ;! unmatched-flow\n  G0 X5\nM2\n'],
    ['a jump to no block', 'macro', 'G21 G90 G94\nIF[#1GT2]GOTO50 ;! unmatched-flow\nM30\n'],
    [
      'a DO with the END of another number',
      'macro',
      'G21 G90 G94\nWHILE[#1LT2]DO1\n#1=#1+1\nEND2 ;! unmatched-flow\nM30\n',
    ],
    ['a DO without its END', 'macro', 'G21 G90 G94\nWHILE[#1LT2]DO1 ;! unmatched-flow\n#1=#1+1\nM30\n'],
    ['an END without its DO', 'macro', 'G21 G90 G94\n#1=#1+1\nEND2 ;! unmatched-flow\nM30\n'],
  ],
  [
    [
      'everything has its end',
      'rs274ngc',
      'G21 G90 G94\no1 if [#1 GT 2]\n  o2 repeat [3]\n    G0 X5\n  o2 endrepeat\no1 elseif [#1 GT 1]\n  G0 X6\no1 else\n  G0 X7\no1 endif\nM2\n',
    ],
    [
      'return early',
      'rs274ngc',
      'G21 G90 G94\no<a> sub\n  o1 if [#1 GT 2]\n    o<a> return\n  o1 endif\n  G0 X5\no<a> endsub\no<a> call [1]\nM2\n',
    ],
    ['do while', 'rs274ngc', 'G21 G90 G94\no1 do\n  #1 = [#1 + 1]\no1 while [#1 LT 3]\nM2\n'],
    [
      'break and continue inside',
      'rs274ngc',
      'G21 G90 G94\no1 while [1]\n  #1 = [#1 + 1]\n  o2 if [#1 EQ 2]\n    o1 continue\n  o2 endif\n  o3 if [#1 GT 3]\n    o1 break\n  o3 endif\no1 endwhile\nM2\n',
    ],
    [
      'one number used again later',
      'rs274ngc',
      'G21 G90 G94\no1 if [#1 GT 2]\n  G0 X5\no1 endif\no1 if [#1 GT 3]\n  G0 X6\no1 endif\nM2\n',
    ],
    [
      'several subs, M2 after endsub',
      'rs274ngc',
      'o<a> sub\n  G0 X1\no<a> endsub\no<b> sub\n  G0 X2\no<b> endsub\nG21 G90 G94\no<a> call\no<b> call\nM2\n',
    ],
    ['called from another file', 'rs274ngc', 'G21 G90 G94\no<elsewhere> call [1]\nM2\n'],
    ['a label with leading zeros', 'macro', 'G21 G90 G94\nIF[#1GT2]GOTO1\nG0 X5.\nN0001 M30\n'],
    ['a computed jump', 'macro', 'G21 G90 G94\nGOTO#5\nN10 M30\n'],
    [
      'jumps out of loops, labels used again',
      'macro',
      'G21 G90 G94\nWHILE[#1LT9]DO1\n#1=#1+1\nIF[#1EQ5]GOTO8\nEND1\nN8 #2=0\nWHILE[#2LT9]DO1\n#2=#2+1\nEND1\nM30\n',
    ],
    ['a jump backwards', 'macro', 'G21 G90 G94\nN5 #1=#1+1\nIF[#1LT3]GOTO5\nM30\n'],
  ],
);
