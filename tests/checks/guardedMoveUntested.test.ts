import { testRule } from './rulePrograms.ts';

const start = 'G21 G90 G94\nG0 X0 Y0 Z20\n';
const macroStart = 'G21 G90 G94\nG0 X0. Y0. Z20.\n';

testRule(
  'guarded-move-untested',
  [
    [
      'inline, then down beside what it may have met',
      'rs274ngc',
      `${start}G38.3 X50 F800 ;! guarded-move-untested\nG0 Z5\nG0 Z20\nM2\n`,
    ],
    [
      'on by a plain move the same way',
      'rs274ngc',
      `${start}G38.3 X50 F800 ;! guarded-move-untested\nG0 X60\nG0 Z5\nM2\n`,
    ],
    [
      'in a called sub, the move on in the caller',
      'rs274ngc',
      `o<over> sub\n  G38.3 X[#1] F800 ;! guarded-move-untested\no<over> endsub\n${start}o<over> call [50]\nG1 Z5 F300\nG0 Z20\nM2\n`,
    ],
    [
      'in a loop',
      'rs274ngc',
      `${start}#<i> = 0\no1 while [#<i> LT 3]\n  G91 G38.3 X20 F800 ;! guarded-move-untested\n  G0 Y5\n  G90\n  #<i> = [#<i> + 1]\no1 endwhile\nM2\n`,
    ],
    [
      'tested on one branch only',
      'rs274ngc',
      `${start}G38.3 X50 F800 ;! guarded-move-untested\no1 if [#<_careful> EQ 1]\n  o2 if [#5070 EQ 1]\n    G0 X0\n    (ABORT, something in the way)\n  o2 endif\no1 endif\nG0 Z5\nM2\n`,
    ],
    ['inline', 'macro', 'G21 G91 G94\nG31 Z-20. F400. ;! guarded-move-untested\nG0 X15.\nG0 Z20.\nM30\n'],
    [
      'tested after the rapid that the test should have protected',
      'macro',
      `${macroStart}G31 X50. F800. ;! guarded-move-untested\nG0 Z5.\nIF[#1005EQ1]GOTO90\nG0 Z20.\nM30\nN90 G0 Z20.\n#3000=2(OBSTRUCTION)\n`,
    ],
    [
      'a skip move that measures comes next',
      'macro',
      `${macroStart}G31 Z5. F400. ;! guarded-move-untested\nG31 X20. F50.\nG0 X0.\nIF[ABS[#5061-20.]LT0.05]GOTO90\n#5221=#5221+#5061+2.\nG0 Z20.\nM30\nN90 #3000=1(NO CONTACT)\n`,
    ],
    [
      'in a subprogram of the same file',
      'macro',
      `O0100\n${macroStart}M98 P200\nG0 Y30.\nM30\nO0200\nG31 X50. F800. ;! guarded-move-untested\nM99\n`,
    ],
    [
      'a jump passes the test by',
      'macro',
      `${macroStart}G31 X50. F800. ;! guarded-move-untested\nIF[#1EQ1]GOTO5\nIF[ABS[#5041-50.]GT0.05]GOTO90\nN5 G0 Z5.\nG0 Z20.\nM30\nN90 G0 X0.\n#3000=2(OBSTRUCTION)\n`,
    ],
  ],
  [
    [
      'tested right behind',
      'rs274ngc',
      `${start}G38.3 X50 F800\no1 if [#5070 EQ 1]\n  G0 X0\n  (ABORT, something in the way)\no1 endif\nG0 Z5\nG0 Z20\nM2\n`,
    ],
    ['only a move back comes next', 'rs274ngc', `${start}G38.3 X50 F800\nG0 X0\nM2\n`],
    [
      'a touch that alarms where it starts tripped',
      'rs274ngc',
      `${start}G38.3 X50 F800\nG38.2 Z-10 F40\nG0 Z20\nM2\n`,
    ],
    [
      'the caller is not in the file',
      'rs274ngc',
      'o<over> sub\n  G21 G90 G94\n  G38.3 X[#1] F800\n  G90\no<over> endsub\n',
    ],
    [
      'a copy of the flag tested by the caller',
      'rs274ngc',
      `o<over> sub\n  G38.3 X[#1] F800\n  #<_met> = #5070\no<over> endsub\n${start}o<over> call [50]\no1 if [#<_met> EQ 1]\n  G0 X0\n  (ABORT, something in the way)\no1 endif\nG0 Z5\nG0 Z20\nM2\n`,
    ],
    [
      'lifted off before the test',
      'rs274ngc',
      `${start}G0 Z5\nG38.3 X50 F800\nG0 Z20\no1 if [#5070 EQ 1]\n  (ABORT, something in the way)\no1 endif\nG0 Y30\nM2\n`,
    ],
    ['the touch that alarms', 'rs274ngc', `${start}G38.2 Z-10 F40\nG0 Z20\nG0 X50\nM2\n`],
    [
      'several in a row, one test by position at the end of each',
      'macro',
      `${macroStart}G31 X50. F800.\nIF[ABS[#5041-50.]GT0.05]GOTO80\nG31 Y30.\nIF[ABS[#5042-30.]GT0.05]GOTO90\nG0 Z5.\nG0 Z20.\nM30\nN80 G0 X0.\n#3000=2(OBSTRUCTION)\nN90 G0 Y0.\n#3000=2(OBSTRUCTION)\n`,
    ],
    [
      'several in a row, tested together before the plain move',
      'macro',
      `${macroStart}G31 X50. F800.\nG31 Y30.\nIF[#1005EQ1]GOTO90\nG0 Z20.\nM30\nN90 #3000=2(OBSTRUCTION)\n`,
    ],
    ['out in machine coordinates', 'macro', 'G21 G91 G94\nG31 Z-20. F400.\nG90\nG53 G0 Z0.\nG0 X15.\nM30\n'],
    ['where it goes is not in the file', 'macro', 'G21 G91 G94\nG31 Z#26 F400.\nG0 Z#3\nM99\n'],
  ],
);
