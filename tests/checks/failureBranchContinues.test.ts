import { testRule } from './rulePrograms.ts';

const start = 'G21 G90 G94\nG0 X0 Y0 Z5\n';
const macroStart = 'G21 G90 G94\nG0 X0. Y0. Z5.\n';

testRule(
  'failure-branch-continues',
  [
    [
      'a message, and on',
      'rs274ngc',
      `${start}G38.3 Z-10 F40\nG0 Z5\no1 if [#5070 EQ 0] ;! failure-branch-continues\n  (MSG, no contact)\no1 endif\nG10 L2 P1 Z#5063\nM2\n`,
    ],
    [
      'the sides are mixed up',
      'rs274ngc',
      `${start}G38.3 Z-10 F40\nG0 Z5\no1 if [#5070 EQ 1] ;! failure-branch-continues\n  (ABORT, no contact)\no1 endif\nG10 L2 P1 Z#5063\nM2\n`,
    ],
    [
      'the caller does not look at the flag',
      'rs274ngc',
      `o<down> sub\n  G38.3 Z-10 F40\n  #<_top> = #5063\n  G0 Z5\n  #<_ok> = 1\n  o1 if [#5070 EQ 0] ;! failure-branch-continues\n    #<_ok> = 0\n  o1 endif\no<down> endsub\n${start}o<down> call\n(LOG, #<_ok>)\nG10 L2 P1 Z#<_top>\nM2\n`,
    ],
    [
      'an early return, and the caller goes on',
      'rs274ngc',
      `o<down> sub\n  G38.3 Z-10 F40\n  #<_top> = #5063\n  G0 Z5\n  o1 if [#5070 EQ 0] ;! failure-branch-continues\n    o<down> return\n  o1 endif\no<down> endsub\n${start}o<down> call\nG10 L2 P1 Z#<_top>\nM2\n`,
    ],
    [
      'in a loop, printed',
      'rs274ngc',
      `${start}#<i> = 0\no1 while [#<i> LT 3]\n  G38.3 Z-10 F40\n  #<z> = #5063\n  G0 Z5\n  o2 if [#<z> LT -9.95] ;! failure-branch-continues\n    #<_misses> = 1\n  o2 endif\n  (LOG, #<z>)\n  G0 X[20 * #<i>]\n  #<i> = [#<i> + 1]\no1 endwhile\nM2\n`,
    ],
    [
      'to the middle of a bore with a wall that was not found',
      'rs274ngc',
      `${start}G0 Z-5 ;! unguarded-approach\nG38.3 X20 F40\n#<right> = #5061\nG0 X0\no1 if [#5070 EQ 0] ;! failure-branch-continues\n  (MSG, right wall not found)\no1 endif\nG38.2 X-20\n#<left> = #5061\nG0 X0\nG0 X[[#<left> + #<right>] / 2]\nG0 Z5\nM2\n`,
    ],
    [
      'the attempts are used up, and on',
      'macro',
      `${macroStart}#100=0\nN10 G0 Z5.\n#100=#100+1\nIF[#100GT3]GOTO20\nG31 Z-10. F40.\nG0 Z5.\nIF[ABS[#5063+10.]LT0.05]GOTO10 ;! failure-branch-continues\nN20 #5223=#5223+#5063\nM30\n`,
    ],
    [
      'a jump over nothing that matters',
      'macro',
      `${macroStart}G31 Z-10. F40.\nG0 Z5.\nIF[ABS[#5063+10.]GT0.05]GOTO20 ;! failure-branch-continues\n#500=1\nN20 #5223=#5223+#5063\nM30\n`,
    ],
    [
      'a note by THEN',
      'macro',
      `${macroStart}G31 Z-10. F40.\nG0 Z5.\nIF[#5063LT-9.95]THEN#500=1 ;! failure-branch-continues\n#5223=#5223+#5063\nM30\n`,
    ],
    [
      'both sides of a status input',
      'macro',
      `${macroStart}G31 Z-10. F40.\nIF[#1005EQ1]GOTO20 ;! failure-branch-continues\n#500=1\nN20 G0 Z5.\n#5223=#5223+#5063\nM30\n`,
    ],
    [
      'in a subprogram, used by the caller',
      'macro',
      `O0100\n${macroStart}M98 P200\n#5223=#5223+#101\nM30\nO0200\nG31 Z-10. F40.\n#101=#5063\nG0 Z5.\nIF[ABS[#101+10.]GT0.05]GOTO20 ;! failure-branch-continues\n#500=0\nN20 M99\n`,
    ],
    [
      'tried three times, then on all the same',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0\n#<n> = 0\no1 do\n  G38.3 X20 F40\n  #<edge> = [#5061 + 1.985]\n  G0 X0\n  #<n> = [#<n> + 1]\no1 while [#5070 EQ 0 AND #<n> LT 3] ;! failure-branch-continues\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n',
    ],
    [
      'tried by its position three times, then on all the same',
      'macro',
      'G21 G90 G94 G54\nG0 X0 Y0\n#100=0\nN10 G31 X20. F40.\n#101=#5061\nG0 X0\n#100=#100+1\nIF[[ABS[#101-20.]LT0.05]AND[#100LT3]]GOTO10 ;! failure-branch-continues\n#5221=#5221+#101+1.985\nM30\n',
    ],
    [
      'of a called file, whose result the caller uses on either side of its test',
      'rs274ngc',
      `G21 G90 G94 G54
G0 X0 Y0
o<reach> call
o1 if [#5070 EQ 0] ;! failure-branch-continues
  (MSG, no edge)
o1 endif
G10 L2 P1 X[#5221 + #<_edge> + 1.985]
M2
`,
      { reach: 'o<reach> sub\nG38.3 X20 F40\n#<_edge> = #5061\nG0 X0\no<reach> endsub\n' },
    ],
    [
      'of a called macro, by the place that it left',
      'macro',
      `O1
G21 G90 G94 G54
G0 X0 Y0
G65 P9810 X20.
IF[ABS[#120-20.]GT0.05]GOTO5 ;! failure-branch-continues
#500=1
N5 #5221=#5221+#120+1.985
M30
`,
      { 9810: 'O9810\nG31 X#24 F40.\n#120=#5061\nG0 X0\nM99\n' },
    ],
  ],
  [
    [
      'an alarm',
      'rs274ngc',
      `${start}G38.3 Z-10 F40\nG0 Z5\no1 if [#5070 EQ 0]\n  (ABORT, no contact)\no1 endif\nG10 L2 P1 Z#5063\nM2\n`,
    ],
    [
      'the operator is asked',
      'rs274ngc',
      `${start}G38.3 Z-10 F40\nG0 Z5\no1 if [#5070 EQ 0]\n  (MSG, no contact: set Z by hand, then go on)\n  M0\no1 endif\nG10 L2 P1 Z#5063\nM2\n`,
    ],
    [
      'another value takes its place',
      'rs274ngc',
      `${start}G38.3 Z-10 F40\nG0 Z5\no1 if [#5070 EQ 1]\n  #<z> = #5063\no1 else\n  #<z> = 0\no1 endif\nG10 L2 P1 Z#<z>\nM2\n`,
    ],
    [
      'no contact is an answer',
      'rs274ngc',
      `${start}G38.3 Z-10 F40\no1 if [#5070 EQ 1]\n  #<_kind> = 1\no1 else\n  #<_kind> = 2\no1 endif\nG0 Z[#5063 + 15]\nG0 X20\nM2\n`,
    ],
    [
      'the failing side says where it ended, and goes back',
      'rs274ngc',
      `${start}G38.3 Z-10 F40\no1 if [#5070 EQ 0]\n  (LOG, no contact down to #5063)\n  G0 Z[#5063 + 15]\n  M2\no1 endif\n#<z> = #5063\nG0 Z5\nG10 L2 P1 Z#<z>\nM2\n`,
    ],
    [
      'the flag of the failing side is tested by the caller',
      'rs274ngc',
      `o<down> sub\n  G38.3 Z-10 F40\n  #<_top> = #5063\n  G0 Z5\n  #<_ok> = 1\n  o1 if [#5070 EQ 0]\n    #<_ok> = 0\n  o1 endif\no<down> endsub\n${start}o<down> call\no2 if [#<_ok> EQ 0]\n  (ABORT, no contact)\no2 endif\nG10 L2 P1 Z#<_top>\nM2\n`,
    ],
    [
      'the returned value is tested by the caller',
      'rs274ngc',
      `o<down> sub\n  G38.3 Z-10 F40\n  #<_top> = #5063\n  G0 Z5\n  o1 if [#5070 EQ 0]\n    o<down> return [-1]\n  o1 endif\no<down> endsub [1]\n${start}o<down> call\no2 if [#<_value> LT 0]\n  M2\no2 endif\nG10 L2 P1 Z#<_top>\nM2\n`,
    ],
    [
      'misses counted over a loop and tested at its end',
      'rs274ngc',
      `${start}#<misses> = 0\n#<i> = 0\no1 while [#<i> LT 3]\n  G38.3 Z-10 F40\n  #<z> = #5063\n  o2 if [#5070 EQ 0]\n    #<misses> = [#<misses> + 1]\n  o2 endif\n  G0 Z5\n  #<i> = [#<i> + 1]\no1 endwhile\no3 if [#<misses> GT 0]\n  (ABORT, no contact)\no3 endif\nG10 L2 P1 Z#<z>\nM2\n`,
    ],
    [
      'attempts that end in an alarm',
      'macro',
      `${macroStart}#100=0\nN10 G0 Z5.\n#100=#100+1\nIF[#100GT3]GOTO90\nG31 Z-10. F40.\nG0 Z5.\nIF[ABS[#5063+10.]LT0.05]GOTO10\n#5223=#5223+#5063\nM30\nN90 #3000=1(NO CONTACT)\n`,
    ],
    [
      'a flag set on one side, tested later',
      'macro',
      `${macroStart}#110=0\nG31 Z-10. F40.\nIF[ABS[#5063+10.]GT0.05]GOTO5\n#110=1\nN5 G0 Z5.\nIF[#110EQ1]GOTO9\n#5223=#5223+#5063\nM30\nN9 #3000=1(NO CONTACT)\n`,
    ],
    [
      'a stop with a message',
      'macro',
      `${macroStart}G31 Z-10. F40.\nG0 Z5.\nIF[ABS[#5063+10.]GT0.05]GOTO20\n#3006=1(NO CONTACT: SET Z BY HAND)\nN20 #5223=#5223+#5063\nM30\n`,
    ],
    [
      'one side of a status input ends',
      'macro',
      `${macroStart}G31 Z-10. F40.\nIF[#1005EQ0]GOTO20\nG0 Z5.\n#5223=#5223+#5063\nM30\nN20 G0 Z5.\nM30\n`,
    ],
    [
      'who calls it is not in the file',
      'macro',
      'G21 G90 G94\nG31 Z-10. F40.\n#101=#5063\nG0 Z5.\n#100=1\nIF[ABS[#101+10.]GT0.05]GOTO20\n#100=0\nN20 M99\n',
    ],
    [
      'a tolerance is no success test',
      'macro',
      `${macroStart}G31 Z-10. F40.\nG0 Z5.\nIF[#5063LT-9.95]THEN#3000=1(NO CONTACT)\nIF[#5063GT1.]THEN#500=1\n#5223=#5223+#5063\nM30\n`,
    ],
    [
      'tried three times, then asked again',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0\n#<n> = 0\no1 do\n  G38.3 X20 F40\n  #<edge> = [#5061 + 1.985]\n  G0 X0\n  #<n> = [#<n> + 1]\no1 while [#5070 EQ 0 AND #<n> LT 3]\no2 if [#5070 EQ 0]\n  (ABORT, no edge)\no2 endif\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n',
    ],
    [
      'tried by its position three times, then asked again',
      'macro',
      'G21 G90 G94 G54\nG0 X0 Y0\n#100=0\nN10 G31 X20. F40.\n#101=#5061\nG0 X0\n#100=#100+1\nIF[[ABS[#101-20.]LT0.05]AND[#100LT3]]GOTO10\nIF[ABS[#101-20.]LT0.05]GOTO9\n#5221=#5221+#101+1.985\nM30\nN9 #3000=1(NO CONTACT)\n',
    ],
    [
      'asked only where it is no preview',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0\nG38.3 X20 F40\n#<edge> = [#5061 + 1.985]\nG0 X0\no1 if [#<_task> EQ 1 AND #5070 EQ 0]\n  (ABORT, no edge)\no1 endif\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n',
    ],
    [
      'of a called file, and the caller stops',
      'rs274ngc',
      `G21 G90 G94 G54
G0 X0 Y0
o<reach> call
o1 if [#<_met> EQ 0]
  (MSG, no edge)
  M2
o1 endif
G10 L2 P1 X[#5221 + #<_edge> + 1.985]
M2
`,
      { reach: 'o<reach> sub\nG38.3 X20 F40\n#<_edge> = #5061\n#<_met> = #5070\nG0 X0\no<reach> endsub\n' },
    ],
    [
      'of a called macro, whose failing side does without',
      'macro',
      `O1
G21 G90 G94 G54
G0 X0 Y0
G65 P9810 X20.
IF[ABS[#120-20.]LT0.05]GOTO5
#5221=#5221+#120+1.985
N5 G0 Z50.
M30
`,
      { 9810: 'O9810\nG31 X#24 F40.\n#120=#5061\nG0 X0\nM99\n' },
    ],
  ],
);
