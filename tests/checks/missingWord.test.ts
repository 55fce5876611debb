import { testRule } from './rulePrograms.ts';

testRule(
  'missing-word',
  [
    ['a dwell without its time', 'rs274ngc', 'G21 G90 G94\nG4 ;! missing-word\nM2\n'],
    ['an output without its number', 'rs274ngc', 'G21 G90 G94\n#<_out>=1\nM64 ;! missing-word\nM2\n'],
    [
      'G10 without the offset’s number, in a subroutine',
      'rs274ngc',
      'G21 G90 G94\no<zero> sub\n  G10 L20 X0 ;! missing-word\no<zero> endsub\no<zero> call\nM2\n',
    ],
    [
      'a touch without an axis, on a branch',
      'rs274ngc',
      'G21 G90 G94\no1 if [#<_top> GT 0]\n  G38.2 F40 ;! missing-word\n  G0 Z5\no1 endif\nM2\n',
    ],
    [
      'an arc without centre or radius, in a loop',
      'rs274ngc',
      'G17 G21 G90 G94\no1 repeat [4]\n  G1 X0 F100\n  G2 X5 Y5 ;! missing-word\no1 endrepeat\nM2\n',
    ],
    [
      'an arc with the centre of another plane',
      'rs274ngc',
      'G18 G21 G90 G94\nG1 X0 F100\no1 if [#1 GT 0]\n  G2 X5 Z5 J5 M8 ;! missing-word\no1 endif\nM2\n',
    ],
    [
      'an arc whose code is in force',
      'rs274ngc',
      'G17 G21 G90 G94\nG1 X0 F100\nG2 X5 Y5 I5\nX9 Y9 S500 M3 ;! missing-word\nM2\n',
    ],
    [
      'a deep hole without its steps',
      'rs274ngc',
      'G17 G21 G90 G94\nG0 X0 Y0\nG83 X5 Y5 Z-10 R2 F100 ;! missing-word\nG80\nM2\n',
    ],
    [
      'a cycle without its depth, behind a loop',
      'rs274ngc',
      'G17 G21 G90 G94\no1 repeat [2]\n  G0 X1\no1 endrepeat\nG17\nG0 Z5\nG81 X5 Y5 R2 F100 ;! missing-word\nG80\nM2\n',
    ],
    [
      'inverse time without its time',
      'rs274ngc',
      'G21 G90 G93\nG1 X5 F2\nX6 F3\nX7 ;! missing-word\nX8\nG94\nM2\n',
    ],
    [
      'a word that no code takes',
      'rs274ngc',
      'G21 G90 G94\nG1 X5 F100\nX6 K2 M8 ;! missing-word\no1 if [1]\no1 endif\nM2\n',
    ],
    ['a dwell without its time', 'macro', 'G21 G90 G94\nG4 ;! missing-word\nM30\n'],
    [
      'a call of nothing, on a branch',
      'macro',
      'G21 G90 G94\nIF[#101EQ1]GOTO5\nG65 A1. B2. ;! missing-word\nN5 M30\n',
    ],
    [
      'a skip move without an axis, in a subprogram',
      'macro',
      'O1\nG21 G90 G94\nM98 P2\nM30\nO2\nG31 F40. ;! missing-word\nM99\n',
    ],
    [
      'a cycle without its level, in a loop',
      'macro',
      'G17 G21 G90 G94\nWHILE[#101LT3]DO1\nG0 X[#101*5.]\nG81 Z-5. F100. ;! missing-word\nG80\n#101=#101+1\nEND1\nM30\n',
    ],
  ],
  [
    [
      'a polar position, of a touch and of an arc too',
      'rs274ngc',
      'G17 G21 G90 G94\nG0 @10 ^45 Z5\nG38.2 @15 F40\nG0 @10\nG2 ^-45 R10 F100\nG53 G0 Z0\nM2\n',
    ],
    [
      'everything is there',
      'rs274ngc',
      'G17 G21 G90 G94\nG4 P0.5\nG10 L20 P1 X0\nG1 X0 F100\nG2 X5 Y5 I5\nG3 X9 Y9 R5\nG64\nG64 P0.01\nG43\nG43 H2\nG52 X0\nM66 P0 L3 Q5\nM2\n',
    ],
    [
      'a cycle in force keeps its words',
      'rs274ngc',
      'G17 G21 G90 G94 G98\nG0 X0 Y0\nG83 X5 Y5 Z-10 R2 Q1 F100\nX9\nG83 X12\nX15 R3\nG80\nM2\n',
    ],
    [
      'in a subroutine, which may begin with the cycle in force',
      'rs274ngc',
      'o<hole> sub\n  G83 X#1 Y#2\no<hole> endsub\nG17 G21 G90 G94\nG0 X0\nG83 X5 Y5 Z-10 R2 Q1 F100\no<hole> call [5] [6]\nG80\nM2\n',
    ],
    [
      'behind a label, where another motion may hold',
      'macro',
      'G17 G21 G90 G94\nG81 X5. Z-5. R2. F100.\nIF[#101EQ1]GOTO5\nG0 X9.\nN5 G83 X12.\nG80\nM30\n',
    ],
    ['words of user codes', 'rs274ngc', 'G21 G90 G94\nG1 X5 F100\nM101 P1 Q2\nM150\nX6 P3 M110\nM2\n'],
    ['a variable code', 'rs274ngc', 'G21 G90 G94\nG#100 X5\nG[#101 + 1] P1\nM2\n'],
    [
      'arcs of another plane',
      'rs274ngc',
      'G18 G21 G90 G94\nG1 X0 F100\nG2 X5 Z5 K5\nG19\nG3 Y5 Z5 J2 K1\nM2\n',
    ],
    [
      'inverse time, every move with its time',
      'rs274ngc',
      'G21 G90 G93\nG1 X5 F2\nX6 F3\nG0 X7\nX9\nG94 F100\nG1 X8\nX9\nM2\n',
    ],
    [
      'the macro family takes a dwell by X or U',
      'macro',
      'G21 G90 G94\nG4 X1.\nG4 U0.5\nG4 P500\nG65 P9100\nM98 P9200 L2\nM30\n',
    ],
    [
      'a cycle that changes while another holds',
      'macro',
      'G17 G21 G90 G94\nG0 X0.\nG81 X5. Y5. Z-10. R2. F100.\nG82 X9. P500\nG80\nM30\n',
    ],
    [
      'words that nothing takes, in the macro family',
      'macro',
      'G21 G90 G94\nG1 X5. F100.\nX6. K2. D5\nM30\n',
    ],
    ['arguments', 'macro', 'G21 G90 G94\nG65 P9100 G4. M64. R5.\nM30\n'],
    ['a local block is called', 'macro', 'G21 G90 G94\nM98 H10\nM30\nN10 G4 P1\nM99\n'],
    ['an interrupt is switched off', 'macro', 'G21 G90 G94\nM96 P9001\nG0 X1.\nM97\nM30\n'],
  ],
);
