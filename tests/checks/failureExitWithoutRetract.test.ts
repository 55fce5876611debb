import { testRule } from './rulePrograms.ts';

const start = 'G21 G90 G94\nG0 X0 Y0 Z5\n';
const macroStart = 'G21 G90 G94\nG0 X0. Y0. Z5.\n';

testRule(
  'failure-exit-without-retract',
  [
    [
      'guarded travel that alarms where it stopped',
      'rs274ngc',
      `${start}G38.3 X50 F800 ;! failure-exit-without-retract\no1 if [#5070 EQ 1]\n  (ABORT, something in the way)\no1 endif\nG0 Y20\nM2\n`,
    ],
    [
      'in a called sub',
      'rs274ngc',
      `o<over> sub\n  G38.3 X[#1] F800 ;! failure-exit-without-retract\n  o1 if [#5070 EQ 1]\n    (ABORT, something in the way)\n  o1 endif\no<over> endsub\n${start}o<over> call [50]\nG0 Y20\nM2\n`,
    ],
    [
      'in a loop',
      'rs274ngc',
      `${start}#<i> = 0\no1 while [#<i> LT 3]\n  G91 G38.3 X20 F800 ;! failure-exit-without-retract\n  o2 if [#5070 EQ 1]\n    (ABORT, something in the way)\n  o2 endif\n  G90\n  #<i> = [#<i> + 1]\no1 endwhile\nM2\n`,
    ],
    [
      'one of two branches retracts',
      'rs274ngc',
      `${start}G38.3 X50 F800 ;! failure-exit-without-retract\no1 if [#5070 EQ 1]\n  o2 if [#<_careful> EQ 1]\n    G0 X0\n  o2 endif\n  (ABORT, something in the way)\no1 endif\nG0 Y20\nM2\n`,
    ],
    [
      'a height out of its range, the tip still on the part',
      'rs274ngc',
      `${start}G38.2 Z-10 F40 ;! failure-exit-without-retract\no1 if [#5063 GT 1]\n  (ABORT, part too high)\no1 endif\nG0 Z5\nM2\n`,
    ],
    [
      'a jump to the alarm',
      'macro',
      `${macroStart}G31 X50. F800. ;! failure-exit-without-retract\nIF[ABS[#5041-50.]GT0.05]GOTO90\nG0 Y20.\nM30\nN90 #3000=2(OBSTRUCTION)\n`,
    ],
    [
      'the alarm in the block of the test',
      'macro',
      `${macroStart}G31 X50. F800. ;! failure-exit-without-retract\nIF[#5061LT49.95]THEN#3000=2(OBSTRUCTION)\nG0 Y20.\nM30\n`,
    ],
    [
      'in a subprogram',
      'macro',
      `O0100\n${macroStart}M98 P200\nG0 Y20.\nM30\nO0200\nG31 X50. F800. ;! failure-exit-without-retract\nIF[ABS[#5041-50.]GT0.05]GOTO90\nM99\nN90 #3000=2(OBSTRUCTION)\n`,
    ],
    [
      'the alarm of the failing side is raised in G91',
      'macro',
      `${macroStart}G91\nG31 Z-10. F40.\n#101=#5063\nG0 Z5.\nG90\nIF[ABS[#101+5.]LT0.05]GOTO80\n#5223=#5223+#101\nM30\nN80 G91 G0 Z20.\n#3000=1(NO CONTACT) ;! failure-exit-without-retract\n`,
    ],
  ],
  [
    [
      'back first, then the alarm',
      'rs274ngc',
      `${start}G38.3 X50 F800\no1 if [#5070 EQ 1]\n  G0 X0\n  (ABORT, something in the way)\no1 endif\nG0 Y20\nM2\n`,
    ],
    [
      'nothing was met: the tip is free',
      'rs274ngc',
      `${start}G38.3 Z-10 F40\no1 if [#5070 EQ 0]\n  (ABORT, no contact)\no1 endif\n#<z> = #5063\nG0 Z5\nG10 L2 P1 Z#<z>\nM2\n`,
    ],
    [
      'an alarm before any touch',
      'rs274ngc',
      `${start}o1 if [#<_size> LE 0]\n  (ABORT, no size given)\no1 endif\nG38.2 Z-10 F40\nG0 Z5\nM2\n`,
    ],
    [
      'the height is judged after the lift',
      'rs274ngc',
      `${start}G38.2 Z-10 F40\nG0 Z5\no1 if [#5063 LT -5]\n  (ABORT, part too low)\no1 endif\nM2\n`,
    ],
    [
      'the caller retracts from a flag',
      'rs274ngc',
      `o<over> sub\n  G38.3 X[#1] F800\n  #<_met> = #5070\no<over> endsub\n${start}o<over> call [50]\no1 if [#<_met> EQ 1]\n  G0 X0\n  (ABORT, something in the way)\no1 endif\nG0 Y20\nM2\n`,
    ],
    [
      'which side of a status input touched is not said',
      'macro',
      `${macroStart}G31 X50. F800.\nIF[#1005EQ1]GOTO90\nG0 Y20.\nM30\nN90 #3000=2(OBSTRUCTION)\n`,
    ],
    [
      'back to the start, then the alarm',
      'macro',
      `${macroStart}G31 X50. F800.\nIF[ABS[#5041-50.]GT0.05]GOTO90\nG0 Y20.\nM30\nN90 G0 X0.\n#3000=2(OBSTRUCTION)\n`,
    ],
    [
      'the mode is put back before the alarm',
      'macro',
      `${macroStart}G91\nG31 Z-10. F40.\n#101=#5063\nG0 Z5.\nG90\nIF[ABS[#101+5.]LT0.05]GOTO80\n#5223=#5223+#101\nM30\nN80 #3000=1(NO CONTACT)\n`,
    ],
    [
      'the regular end is in that mode too',
      'macro',
      'G21 G91 G94\nG31 Z-10. F40.\n#101=#5063\nG0 Z10.\nIF[#1005EQ0]GOTO90\n#5223=#5223+#101\nM99\nN90 #3000=1(NO CONTACT)\n',
    ],
  ],
);
