import { testRule } from './rulePrograms.ts';

const start = 'G21 G90 G94\nG0 X0 Y0 Z5\n';

testRule(
  'unbounded-retry',
  [
    [
      'do while',
      'rs274ngc',
      `${start}o1 do\n  G0 Z5\n  G38.3 Z-10 F40 ;! unbounded-retry\no1 while [#5070 EQ 0]\nG0 Z5\nM2\n`,
    ],
    [
      'by a saved copy',
      'rs274ngc',
      `${start}#<ok> = 0\no1 while [#<ok> EQ 0]\n  G38.3 Z-10 F40 ;! unbounded-retry\n  #<ok> = #5070\n  G0 Z5\no1 endwhile\nM2\n`,
    ],
    [
      'left by a break',
      'rs274ngc',
      `${start}o1 while [1]\n  G38.3 Z-10 F40 ;! unbounded-retry\n  G0 Z5\n  o2 if [#5070 EQ 1]\n    o1 break\n  o2 endif\no1 endwhile\nM2\n`,
    ],
    [
      'in a called sub',
      'rs274ngc',
      `o<find> sub\n  o1 do\n    G0 Z5\n    G38.3 Z-10 F40 ;! unbounded-retry\n  o1 while [#5070 EQ 0]\n  G0 Z5\no<find> endsub\n${start}o<find> call\nM2\n`,
    ],
    [
      'jump back',
      'macro',
      'G21 G90 G94\nG0 X0. Y0. Z5.\nN10 G0 Z5.\nG31 Z-10. F40. ;! unbounded-retry\nIF[ABS[#5063+10.]LT0.05]GOTO10\nG0 Z5.\nM30\n',
    ],
    [
      'own label',
      'macro',
      'G21 G90 G94\nG0 X0. Y0. Z5.\nN10 IF[#1005EQ1]GOTO10 ;! unbounded-retry\nG31 Z-10. F40.\nG0 Z5.\nIF[ABS[#5063+10.]LT0.05]GOTO90\n#5223=#5223+#5063\nM30\nN90 #3000=1(NO CONTACT)\n',
    ],
  ],
  [
    [
      'counted',
      'rs274ngc',
      `${start}#<tries> = 0\no1 do\n  G0 Z5\n  G38.3 Z-10 F40\n  #<tries> = [#<tries> + 1]\no1 while [[#5070 EQ 0] AND [#<tries> LT 3]]\nG0 Z5\nM2\n`,
    ],
    ['repeat', 'rs274ngc', `${start}o1 repeat [3]\n  G38.2 Z-10 F40\n  G0 Z5\no1 endrepeat\nM2\n`],
    [
      'an exit of its own counts',
      'rs274ngc',
      `${start}#<tries> = 0\no1 do\n  G0 Z5\n  G38.3 Z-10 F40\n  #<tries> = [#<tries> + 1]\n  o2 if [#<tries> GT 3]\n    o1 break\n  o2 endif\no1 while [#5070 EQ 0]\nG0 Z5\nM2\n`,
    ],
    [
      'the operator is asked',
      'rs274ngc',
      `${start}o1 do\n  G0 Z5\n  M0 (put the part in)\n  G38.3 Z-10 F40\no1 while [#5070 EQ 0]\nG0 Z5\nM2\n`,
    ],
    [
      'down a ladder',
      'rs274ngc',
      `${start}#<feed> = 80\no1 while [#<feed> GT 20]\n  G38.2 Z-10 F#<feed>\n  #<feed> = [#<feed> / 2]\n  G0 Z5\no1 endwhile\nM2\n`,
    ],
    [
      'counted jump',
      'macro',
      'G21 G90 G94\nG0 X0. Y0. Z5.\n#100=0\nN10 G0 Z5.\n#100=#100+1\nIF[#100GT3]GOTO90\nG31 Z-10. F40.\nIF[ABS[#5063+10.]LT0.05]GOTO10\nG0 Z5.\nM30\nN90 #3000=1(NO CONTACT)\n',
    ],
    [
      'counted WHILE',
      'macro',
      'G21 G90 G94\nG0 X0. Y0. Z5.\n#100=0\nWHILE[#100LT3]DO1\nG31 Z-10. F40.\n#100=#100+1\nG0 Z5.\nIF[ABS[#5063+10.]LT0.05]GOTO90\nEND1\nM30\nN90 #3000=1(NO CONTACT)\n',
    ],
    [
      'a stop with a message on each turn',
      'macro',
      `G21 G90 G94 G54
G0 X0. Y0.
G31 X20. F40.
#140=#5061
G0 X0.
WHILE[#140GT19.95]DO1
#3006=1(NO EDGE, PLACE THE PART)
G31 X20. F40.
#140=#5061
G0 X0.
END1
#5221=#5221+#140+2.
M30
`,
    ],
  ],
);
