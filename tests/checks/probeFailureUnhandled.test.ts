import { testRule } from './rulePrograms.ts';

testRule(
  'probe-failure-unhandled',
  [
    [
      'inline, written into an offset',
      'rs274ngc',
      `G21 G90 G94
G38.3 Z-10 F40 ;! probe-failure-unhandled
#<top> = [#5063 + 0.5]
G0 Z5
G10 L2 P1 Z#<top>
M2
`,
    ],
    [
      'written into the tool table',
      'rs274ngc',
      `G21 G90 G94
G38.3 Z-10 F40 ;! probe-failure-unhandled
#<top> = #5063
G0 Z5
G10 L1 P1 Z#<top>
M2
`,
    ],
    [
      'move away that does not alarm',
      'rs274ngc',
      `G21 G91 G94
G38.2 Z-10 F200
G38.5 Z5 F20 ;! probe-failure-unhandled
#<z> = #5063
G0 Z5
G90
G10 L2 P1 Z#<z>
M2
`,
    ],
    [
      'tested on one branch only',
      'rs274ngc',
      `G21 G90 G94
G38.3 Z-10 F40 ;! probe-failure-unhandled
G0 Z5
o1 if [#1 GT 0]
  o2 if [#5070 EQ 0]
    (ABORT, no contact)
  o2 endif
o1 endif
G10 L2 P1 Z#5063
M2
`,
    ],
    [
      'in a called subroutine, used by the caller',
      'rs274ngc',
      `G21 G90 G94
o<down> sub
  G38.3 Z-10 F40 ;! probe-failure-unhandled
  #<_top> = #5063
  G0 Z5
o<down> endsub
o<down> call
G10 L2 P1 Z#<_top>
M2
`,
    ],
    [
      'a motion goes by the result',
      'rs274ngc',
      `G21 G90 G94
G38.3 X20 F40 ;! probe-failure-unhandled
G0 X[#5061 - 5]
M2
`,
    ],
    [
      'only a touch along another axis is tested before it',
      'rs274ngc',
      `G21 G91 G94
G38.3 X10 F200
#<x> = #5061
o1 if [#5070 EQ 0]
  (ABORT, no contact)
o1 endif
G0 X-5
G38.3 Z-3 F40 ;! probe-failure-unhandled
#<z> = #5063
G0 Z5
G90
G10 L2 P1 X[#<x> + 1.993] Z#<z>
M2
`,
    ],
    [
      'in a loop, a printed result',
      'rs274ngc',
      `G21 G91 G94
o1 repeat [3]
  G38.3 Z-10 F40 ;! probe-failure-unhandled
  (LOG, #5063)
  G0 Z10
  G0 X20
o1 endrepeat
M2
`,
    ],
    [
      'offset by a system variable',
      'macro',
      'G21 G90 G94\nG0 Z5.\nG31 Z-10. F40. ;! probe-failure-unhandled\nG0 Z5.\n#5223=#5223+#5063\nM30\n',
    ],
    [
      'in a subprogram of the same file',
      'macro',
      `O0100
G21 G90 G94
M98 P200
#5223=#5223+#101
M30
O0200
G0 Z5.
G31 Z-10. F40. ;! probe-failure-unhandled
#101=#5063
G0 Z5.
M99
`,
    ],
    [
      'a jump passes the test by',
      'macro',
      `G21 G90 G94
G0 Z5.
G31 Z-10. F40. ;! probe-failure-unhandled
G0 Z5.
IF[#1EQ1]GOTO5
IF[ABS[#5063+10.]LT0.05]GOTO9
N5 #5223=#5223+#5063
M30
N9 #3000=1(NO CONTACT)
`,
    ],
    [
      'of a called file, used by the caller',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0\no<reach> call ;! probe-failure-unhandled\nG10 L2 P1 X[#5221 + #<_edge> + 1.985]\nM2\n',
      { reach: 'o<reach> sub\nG38.3 X20 F40\n#<_edge> = #5061\nG0 X0\no<reach> endsub\n' },
    ],
    [
      'of a called macro, used by the caller',
      'macro',
      'O1\nG21 G90 G94 G54\nG0 X0 Y0\nG65 P9810 X20. ;! probe-failure-unhandled\n#5221=#5221+#120+1.985\nM30\n',
      { 9810: 'O9810\nG31 X#24 F40.\n#120=#5061\nG0 X0\nM99\n' },
    ],
    [
      'back to the middle of an earlier pass, which tested one wall',
      'rs274ngc',
      `G21 G90 G94 G54
G0 X0 Y0
#<n> = 0
#<yc> = 0
o1 while [#<n> LT 2]
  G38.3 Y20 F40 ;! probe-failure-unhandled
  #<back> = #5062
  G0 Y#<yc>
  G38.3 Y-20
  o2 if [#5070 EQ 0]
    G0 Y#<yc>
    (ABORT, no front wall)
  o2 endif
  #<front> = #5062
  G0 Y#<yc>
  #<yc> = [[#<back> + #<front>] / 2]
  G0 Y#<yc>
  #<n> = [#<n> + 1]
o1 endwhile
G10 L20 P1 Y0
M2
`,
    ],
    [
      'in inches, where the program ends in millimetres: no test can be added as it stands',
      'macro',
      `G21 G90 G94
G0 X0. Y0.
G20
G31 X1. F2. ;! probe-failure-unhandled
#101=#5061*25.4
G0 X0.
G21
#5221=#5221+#101+2.
M30
`,
    ],
  ],
  [
    [
      'the touch that alarms by itself',
      'rs274ngc',
      'G21 G90 G94\nG38.2 Z-10 F40\nG0 Z5\nG10 L2 P1 Z#5063\nM2\n',
    ],
    [
      'tested a few blocks on, after the lift',
      'rs274ngc',
      `G21 G90 G94
G38.3 Z-10 F40
G0 Z5
G0 X20
o1 if [#5070 EQ 0]
  (MSG, no contact)
  M2
o1 endif
G10 L2 P1 Z#5063
M2
`,
    ],
    [
      'a saved copy of the success flag',
      'rs274ngc',
      `G21 G90 G94
G38.3 Z-10 F40
#<ok> = #5070
G0 Z5
o1 if [#<ok> NE 1]
  (ABORT, no contact)
o1 endif
G10 L2 P1 Z#5063
M2
`,
    ],
    [
      'a flag for the caller',
      'rs274ngc',
      `G21 G90 G94
o<down> sub
  G38.3 Z-10 F40
  #<ok> = #5070
  #<_top> = #5063
  G0 Z5
o<down> endsub [#<ok>]
o<down> call
o1 if [#<_value> EQ 0]
  (ABORT, no contact)
o1 endif
G10 L2 P1 Z#<_top>
M2
`,
    ],
    [
      'success as a truth value, the use inside the branch',
      'rs274ngc',
      `G21 G90 G94
G38.3 Z-10 F40
o1 if [#5070]
  G0 Z5
  G10 L2 P1 Z#5063
o1 else
  G0 Z5
o1 endif
M2
`,
    ],
    [
      'a bounded retry that remembers whether one of them touched',
      'rs274ngc',
      `G21 G90 G94
#<ok> = 0
#<n> = 0
o1 while [[#<ok> EQ 0] AND [#<n> LT 3]]
  G0 Z5
  G38.3 Z-10 F40
  #<ok> = #5070
  #<z> = #5063
  #<n> = [#<n> + 1]
o1 endwhile
G0 Z5
o2 if [#<ok> EQ 0]
  (ABORT, no contact)
o2 endif
G10 L2 P1 Z#<z>
M2
`,
    ],
    [
      'full travel used means no contact',
      'rs274ngc',
      `G21 G90 G94
G38.3 Z-10 F40
G0 Z5
o1 if [ABS[#5063 - -10] LT 0.02]
  (ABORT, no contact)
o1 endif
G10 L2 P1 Z#5063
M2
`,
    ],
    [
      'presence with an else branch',
      'rs274ngc',
      `G21 G90 G94
G38.3 Z-10 F40
o1 if [#5070 EQ 1]
  (MSG, part present)
o1 else
  (MSG, no part)
o1 endif
G0 Z5
M2
`,
    ],
    [
      'guarded travel is not measured',
      'rs274ngc',
      `G21 G91 G94
G38.3 X50 F800
o1 if [#5070 EQ 1]
  G0 X-5
  (ABORT, something in the way)
o1 endif
G38.2 Z-10 F40
G0 Z5
M2
`,
    ],
    [
      'a status input read after the move',
      'macro',
      'G21 G90 G94\nG0 Z5.\nG31 Z-10. F40.\nIF[#1005EQ0]GOTO9\nG0 Z5.\n#5223=#5223+#5063\nM30\nN9 #3000=1(NO CONTACT)\n',
    ],
    [
      'a position compared, the alarm inline',
      'macro',
      'G21 G90 G94\nG0 Z5.\nG31 Z-10. F40.\nG0 Z5.\nIF[#5063LT-9.95]THEN#3000=1(NO CONTACT)\n#5223=#5223+#5063\nM30\n',
    ],
    [
      'a flag set on the failing side',
      'macro',
      `G21 G90 G94
G0 Z5.
#110=0
G31 Z-10. F40.
IF[ABS[#5063+10.]GT0.05]GOTO5
#110=1
N5 G0 Z5.
IF[#110EQ1]GOTO9
#5223=#5223+#5063
M30
N9 #3000=1(NO CONTACT)
`,
    ],
    [
      'a copy is no use',
      'macro',
      'G21 G91 G94\nG31 Z-10. F40.\n#101=#5063\nG0 Z5.\nIF[#1005EQ0]GOTO9\nM30\nN9 #3000=1(NO CONTACT)\n',
    ],
    [
      'of a called file, tested by the caller',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0\no<reach> call\no1 if [#5070 EQ 0]\n  (ABORT, no edge)\no1 endif\nG10 L2 P1 X[#5221 + #<_edge> + 1.985]\nM2\n',
      { reach: 'o<reach> sub\nG38.3 X20 F40\n#<_edge> = #5061\nG0 X0\no<reach> endsub\n' },
    ],
    [
      'of a called macro, tested by the caller',
      'macro',
      'O1\nG21 G90 G94 G54\nG0 X0 Y0\nG65 P9810 X20.\nIF[ABS[#120-20.]LT0.05]GOTO9\n#5221=#5221+#120+1.985\nM30\nN9 #3000=1(NO CONTACT)\n',
      { 9810: 'O9810\nG31 X#24 F40.\n#120=#5061\nG0 X0\nM99\n' },
    ],
    [
      'what a called file uses itself is for that file to tell',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0\no<both> call\nG0 Y30\nM2\n',
      {
        both: 'o<both> sub\nG38.3 X20 F40\n#<_edge> = [#5061 + 1.985]\nG0 X0\nG10 L2 P1 X[#5221 + #<_edge>]\no<both> endsub\n',
      },
    ],
    [
      'back to the middle that an earlier pass has found and tested',
      'rs274ngc',
      `G21 G90 G94 G54
G0 X0 Y0
#<n> = 0
#<yc> = 0
o1 while [#<n> LT 2]
  G38.3 Y20 F40
  #<back> = #5062
  #<met> = #5070
  G0 Y#<yc>
  G38.3 Y-20
  o2 if [#5070 EQ 0]
    G0 Y#<yc>
    (ABORT, no front wall)
  o2 endif
  #<front> = #5062
  G0 Y#<yc>
  o3 if [#<met> EQ 0]
    (ABORT, no back wall)
  o3 endif
  #<yc> = [[#<back> + #<front>] / 2]
  G0 Y#<yc>
  #<n> = [#<n> + 1]
o1 endwhile
G10 L20 P1 Y0
M2
`,
    ],
    [
      'from the middle of an earlier pass',
      'macro',
      `O1
G21 G90 G94 G54
G0 X0. Y0.
#103=0
#100=0
WHILE[#100LT2]DO1
G31 X20. F40.
#101=#5061
G0 X#103
IF[#101GT19.9]GOTO90
G31 X-20.
#102=#5061
G0 X#103
IF[#102LT-19.9]GOTO90
#103=[#101+#102]/2.
G0 X#103
#100=#100+1
END1
#5221=#5221+#103
M30
N90 #3000=1(NO WALL)
`,
    ],
    [
      'one of two touches, one status for both',
      'macro',
      `G21 G90 G94
G0 X0. Y0.
IF[#26EQ1]GOTO20
G31 X10. F60.
GOTO30
N20 G31 X-10. F60.
N30 #150=#5061
IF[#1005EQ0]GOTO92
G0 X0. F2000.
#5221=#5221+#150/2.
M30
N92 G0 Z30.
#3000=92(NO TOUCH)
`,
    ],
  ],
);
