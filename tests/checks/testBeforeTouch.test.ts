import { testRule } from './rulePrograms.ts';

const start = 'G21 G90 G94\nG0 X0 Y0 Z5\n';
const macroStart = 'G21 G90 G94\nG0 X0. Y0. Z5.\n';

testRule(
  'test-before-touch',
  [
    [
      'between the rough and the slow touch',
      'rs274ngc',
      `G21 G91 G94\nG38.3 Z-10 F200\no1 if [#5070 EQ 0] ;! test-before-touch\n  (ABORT, no contact)\no1 endif\nG0 Z2\nG38.3 Z-3 F40\n#<z> = #5063\nG0 Z5\nG90\nG10 L2 P1 Z#<z>\nM2\n`,
    ],
    [
      'before the only touch',
      'rs274ngc',
      `${start}o1 if [#5070 EQ 0] ;! test-before-touch\n  (ABORT, no contact)\no1 endif\nG38.3 Z-10 F40\nG0 Z5\nG10 L2 P1 Z#5063\nM2\n`,
    ],
    [
      'a flag kept from the rough touch',
      'rs274ngc',
      `G21 G91 G94\nG38.3 Z-10 F200\n#<ok> = #5070\nG0 Z2\nG38.3 Z-3 F40\n#<z> = #5063\nG0 Z5\no1 if [#<ok> EQ 0] ;! test-before-touch\n  (ABORT, no contact)\no1 endif\nG90\nG10 L2 P1 Z#<z>\nM2\n`,
    ],
    [
      'at the top of a loop',
      'rs274ngc',
      `${start}#<i> = 0\no1 while [#<i> LT 3]\n  o2 if [#5070 EQ 0] ;! test-before-touch\n    (ABORT, no contact)\n  o2 endif\n  G38.3 Z-10 F40\n  G0 Z5\n  (LOG, #5063)\n  G0 X[20 * #<i>]\n  #<i> = [#<i> + 1]\no1 endwhile\nM2\n`,
    ],
    [
      'in a called sub',
      'rs274ngc',
      `o<down> sub\n  G91\n  G38.3 Z-10 F200\n  G0 Z2\n  o1 if [#5070 EQ 0] ;! test-before-touch\n    (ABORT, no contact)\n  o1 endif\n  G38.3 Z-3 F40\n  #<_top> = #5063\n  G0 Z5\n  G90\no<down> endsub\n${start}o<down> call\nG10 L2 P1 Z#<_top>\nM2\n`,
    ],
    [
      'two slow touches behind the test',
      'rs274ngc',
      `G21 G91 G94\nG38.3 Z-10 F200\no1 if [#5070 EQ 0] ;! test-before-touch\n  (ABORT, no contact)\no1 endif\nG0 Z2\nG38.3 Z-3 F40\n#<a> = #5063\nG0 Z2\nG38.3 Z-3 F40\n#<b> = #5063\nG0 Z5\nG90\nG10 L2 P1 Z[[#<a> + #<b>] / 2]\nM2\n`,
    ],
    [
      'before the only touch',
      'macro',
      `${macroStart}IF[ABS[#5063+10.]LT0.05]GOTO90 ;! test-before-touch\nG31 Z-10. F40.\nG0 Z5.\n#5223=#5223+#5063\nM30\nN90 #3000=1(NO CONTACT)\n`,
    ],
    [
      'a status input between the touches',
      'macro',
      `${macroStart}G31 Z-10. F200.\nIF[#1005EQ0]GOTO90 ;! test-before-touch\nG91 G0 Z2.\nG90\nG31 Z-10. F40.\n#101=#5063\nG0 Z5.\n#5223=#5223+#101\nM30\nN90 #3000=1(NO CONTACT)\n`,
    ],
    [
      'in a subprogram, used by the caller',
      'macro',
      `O0100\n${macroStart}M98 P200\n#5223=#5223+#101\nM30\nO0200\nG31 Z-10. F200.\nIF[ABS[#5063+10.]LT0.05]GOTO90 ;! test-before-touch\nG91 G0 Z2.\nG90\nG31 Z-10. F40.\n#101=#5063\nG0 Z5.\nM99\nN90 #3000=1(NO CONTACT)\n`,
    ],
  ],
  [
    [
      'both touches tested',
      'rs274ngc',
      `G21 G91 G94\nG38.3 Z-10 F200\no1 if [#5070 EQ 0]\n  (ABORT, no contact)\no1 endif\nG0 Z2\nG38.3 Z-3 F40\n#<z> = #5063\n#<ok> = #5070\nG0 Z5\no2 if [#<ok> EQ 0]\n  (ABORT, no contact)\no2 endif\nG90\nG10 L2 P1 Z#<z>\nM2\n`,
    ],
    [
      'the second touch alarms by itself',
      'rs274ngc',
      `G21 G91 G94\nG38.3 Z-10 F200\no1 if [#5070 EQ 0]\n  (ABORT, no contact)\no1 endif\nG0 Z2\nG38.2 Z-3 F40\n#<z> = #5063\nG0 Z5\nG90\nG10 L2 P1 Z#<z>\nM2\n`,
    ],
    [
      'the untested touch goes another way',
      'rs274ngc',
      `G21 G91 G94\nG38.3 X10 F200\no1 if [#5070 EQ 0]\n  (ABORT, no contact)\no1 endif\nG0 X-5\nG38.3 Z-3 F40 ;! probe-failure-unhandled\n#<z> = #5063\nG0 Z5\nG90\nG10 L2 P1 Z#<z>\nM2\n`,
    ],
    [
      'the tested touch has a use of its own',
      'rs274ngc',
      `G21 G90 G94\nG0 X0 Y0 Z5\nG38.3 Z-10 F40\no1 if [#5070 EQ 0]\n  (ABORT, no contact)\no1 endif\n#<a> = #5063\nG0 Z5\nG0 X20\nG38.3 Z-10 F40 ;! probe-failure-unhandled\n#<b> = #5063\nG0 Z5\nG10 L2 P1 Z[[#<a> + #<b>] / 2]\nM2\n`,
    ],
    [
      'tested at the bottom of the loop, used after it',
      'rs274ngc',
      `${start}#<n> = 0\no1 do\n  G0 Z5\n  G38.3 Z-10 F40\n  #<z> = #5063\n  #<n> = [#<n> + 1]\no1 while [[#5070 EQ 0] AND [#<n> LT 3]] ;! failure-branch-continues\nG0 Z5\nG10 L2 P1 Z#<z>\nM2\n`,
    ],
    [
      'whether the probe is tripped before the touch',
      'macro',
      `${macroStart}IF[#1005EQ1]GOTO90\nG31 Z-10. F40.\nG0 Z5.\nIF[ABS[#5063+10.]LT0.05]GOTO91\n#5223=#5223+#5063\nM30\nN90 #3000=1(PROBE IS TRIPPED)\nN91 #3000=2(NO CONTACT)\n`,
    ],
    [
      'used and then tested, in a loop',
      'macro',
      `${macroStart}#100=0\nWHILE[#100LT3]DO1\nG31 Z-10. F40. ;! probe-failure-unhandled\nG0 Z5.\n#5223=#5063+0.5\nIF[ABS[#5063+10.]LT0.05]GOTO90\n#100=#100+1\nEND1\nM30\nN90 #3000=1(NO CONTACT)\n`,
    ],
    [
      'the caller may have touched',
      'rs274ngc',
      `o<down> sub\n  G21 G90 G94\n  o1 if [#5070 EQ 0]\n    (ABORT, no contact)\n  o1 endif\n  G38.3 Z-10 F40 ;! probe-failure-unhandled\n  #<z> = #5063\n  G0 Z5\n  G10 L2 P1 Z#<z>\no<down> endsub\n`,
    ],
  ],
);
