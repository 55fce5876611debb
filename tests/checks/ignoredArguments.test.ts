import { testRule } from './rulePrograms.ts';

testRule(
  'ignored-arguments',
  [
    ['two letters', 'macro', 'G21 G90 G94\nM98 P9100 A1. B20. ;! ignored-arguments\nM30\n'],
    ['an axis', 'macro', 'G21 G90 G94\nM98 P9100 X5. ;! ignored-arguments\nM30\n'],
    [
      'between the count and the number',
      'macro',
      'G21 G90 G94\nM98 D12. P9100 L2 ;! ignored-arguments\nM30\n',
    ],
    ['glued', 'macro', 'G21G90G94\nM98P9100I5.J6. ;! ignored-arguments\nM30\n'],
    [
      'a computed value, in a loop',
      'macro',
      'G21 G90 G94\nWHILE[#101LT3]DO1\nM98 P9100 Z#101 ;! ignored-arguments\n#101=#101+1\nEND1\nM30\n',
    ],
    [
      'to a subprogram of the file, from a subprogram',
      'macro',
      'O1\nG21 G90 G94\nM98 P2\nM30\nO2\nM98 P3 R5. ;! ignored-arguments\nM99\nO3\nG0 Z5.\nM99\n',
    ],
    [
      'a call within the program, on a branch',
      'macro',
      'G21 G90 G94\nIF[#101EQ1]GOTO9\nM97 P20 A5. ;! ignored-arguments\nN9 M30\nN20 G0 X5.\nM99\n',
    ],
  ],
  [
    ['G65 takes them', 'macro', 'G21 G90 G94\nG65 P9100 A1. B20. X5.\nM30\n'],
    ['subprogram and count', 'macro', 'G21 G90 G94\nM98 P9100 L2\nM98 P0039100\nM98 P9100 Q20\nM30\n'],
    ['move, then call', 'macro', 'G21 G90 G94\nG0\nX5. Y5. M98 P9100\nX9. M98 P9100\nM30\n'],
    ['a motion of its own', 'macro', 'G21 G90 G94\nM98 P9100 G0 X5.\nM30\n'],
    ['spindle and feed', 'macro', 'G21 G90 G94\nM98 P9100 S500 F100. M3\nM30\n'],
    ['no call', 'macro', 'G21 G90 G94\nM99 P20\nM30\n'],
    ['M98 in a called macro’s arguments', 'macro', 'G21 G90 G94\nG65 P9100 M98. A1.\nM30\n'],
    [
      'arguments in brackets',
      'rs274ngc',
      'o<up> sub\n  G0 Z#1\no<up> endsub\nG21 G90 G94\no<up> call [5]\nM2\n',
    ],
  ],
);
