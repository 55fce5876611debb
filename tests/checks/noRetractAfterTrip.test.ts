import { testRule } from './rulePrograms.ts';

testRule(
  'no-retract-after-trip',
  [
    [
      'further in, inline',
      'rs274ngc',
      `G21 G90 G94
G0 Z5
G38.2 Z-10 F40 ;! no-retract-after-trip
G1 Z-12
G0 Z20
M2
`,
    ],
    [
      'sideways in a straight line',
      'rs274ngc',
      `G21 G91 G94
G38.2 X-15 F40 ;! no-retract-after-trip
G0 Y20
G0 X5
M2
`,
    ],
    [
      'along the surface, from a start that nobody knows',
      'macro',
      `G21 G90 G94
G31 X50. F40. ;! no-retract-after-trip
IF[#5061GT49.9]GOTO9
G0 Y20.
G0 X0
M30
N9 #3000=1(NO CONTACT)
`,
    ],
    [
      'the retract stands on one branch only',
      'rs274ngc',
      `G21 G91 G94
G38.2 Z-10 F40 ;! no-retract-after-trip
o1 if [#1 GT 0]
  G0 Z5
o1 endif
G0 X20
M2
`,
    ],
    [
      'in a called subroutine, the caller moves on',
      'rs274ngc',
      `G21 G91 G94
o<down> sub
  G38.2 Z-10 F40 ;! no-retract-after-trip
o<down> endsub
o<down> call
G0 X30
M2
`,
    ],
    [
      'round a loop, the next turn touches the same way',
      'rs274ngc',
      `G21 G91 G94
#1 = 0
o1 while [#1 LT 3]
  G38.2 Z-10 F40 ;! no-retract-after-trip
  #1 = [#1 + 1]
o1 endwhile
G0 Z20
M2
`,
    ],
    [
      'the second touch goes the same way',
      'rs274ngc',
      `G21 G91 G94
G38.2 Y12 F200 ;! no-retract-after-trip
G38.2 Y2 F40
G0 Y-5
M2
`,
    ],
    [
      'the program ends on the surface',
      'rs274ngc',
      `G21 G91 G94
G38.2 Z-10 F40 ;! no-retract-after-trip
#<_top> = #5063
M2
`,
    ],
    [
      'the tool is changed on the surface',
      'rs274ngc',
      `G21 G91 G94
G38.2 Z-10 F40 ;! no-retract-after-trip
T2 M6
G0 Z20
M2
`,
    ],
    [
      'the lift stands in a comment',
      'rs274ngc',
      `G21 G91 G94
G38.2 Z-10 F40 ;! no-retract-after-trip
(G0 Z5)
G0 X10
G0 Z5
M2
`,
    ],
    [
      'modal touches one after the other',
      'rs274ngc',
      `G21 G91 G94 F40
G38.2 Z-10 ;! no-retract-after-trip
Z-2
G0 Z5
M2
`,
    ],
    [
      'a test shows that it touched, then along the surface',
      'rs274ngc',
      `G21 G91 G94
G38.3 Z-15 F200 ;! no-retract-after-trip
o1 if [#5070 EQ 0]
  (ABORT, no part)
o1 endif
G0 X30
G0 Z5
M2
`,
    ],
    [
      'a search that touched, then the slow touch the same way',
      'rs274ngc',
      `G21 G91 G94
G38.3 Z-15 F200 ;! no-retract-after-trip
o1 if [#5070 EQ 0]
  (ABORT, no part)
o1 endif
G38.2 Z-3 F40
#<_z> = #5063
G0 Z5
M2
`,
    ],
    [
      'a position shows that it touched, then along the surface',
      'macro',
      `G21 G90 G94
G0 Z5.
G31 Z-10. F40. ;! no-retract-after-trip
IF[ABS[#5063+10.]LT0.05]GOTO90
G91
G0 X20.
G90
G0 Z5.
M30
N90 #3000=1(NO CONTACT)
`,
    ],
    [
      'inline, a measured edge, then along it',
      'macro',
      `G21 G91 G94
G31 X20. F40.
IF[#1005EQ0]GOTO90
#5221=#5221+#5061+2.
G0 Z5.
M30
N90 #3000=1(NO CONTACT)
`.replace('G31 X20. F40.', 'G31 X20. F40. ;! no-retract-after-trip'),
    ],
    [
      'in a subprogram of the same file',
      'macro',
      `O0100
G21 G91 G94
M98 P200
IF[ABS[#5063+10.]LT0.05]GOTO90
#5223=#5223+#5063
G0 X20.
M30
N90 #3000=1(NO CONTACT)
O0200
G90
G31 Z-10. F40. ;! no-retract-after-trip
G91
M99
`,
    ],
    [
      'one of two jumps passes the retract by',
      'macro',
      `G21 G91 G94
G31 X20. F40. ;! no-retract-after-trip
IF[#1005EQ0]GOTO90
#5221=#5221+#5061+2.
IF[#101EQ1]GOTO20
G0 X-5.
N20 G0 Y30.
M30
N90 #3000=1(NO CONTACT)
`,
    ],
    [
      'the touch in a called file, dragged by the caller',
      'rs274ngc',
      `G21 G90 G94
G0 X0 Y0 Z5
o<down> call [20] ;! no-retract-after-trip
G0 X30
M2
`,
      { down: 'o<down> sub\nG38.2 Z-#1 F40\no<down> endsub\n' },
    ],
    [
      'two called files, the second drags what the first touched',
      'rs274ngc',
      `G21 G90 G94
G0 X0 Y0 Z5
o<down> call ;! no-retract-after-trip
o<away> call
M2
`,
      { down: 'o<down> sub\nG38.2 Z-9 F40\no<down> endsub\n', away: 'o<away> sub\nG0 Y50\no<away> endsub\n' },
    ],
    [
      'a called macro, on one branch of the caller',
      'macro',
      `O1
G21 G90 G94
G0 Z5.
G65 P9810 Z-10. ;! no-retract-after-trip
IF[#5063LT-9.9]GOTO90
IF[#100EQ1]GOTO10
G0 Z5.
N10 M30
N90 #3000=1(NO CONTACT)
`,
      { 9810: 'O9810\nG31 Z#26 F40.\nM99\n' },
    ],
    [
      'the next touch the other way, which must not start tripped',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0\nG38.2 X20 F40 ;! no-retract-after-trip\n#<right> = #5061\nG38.2 X-20 F40\n#<left> = #5061\nG0 X[[#<right> + #<left>] / 2]\nG10 L20 P1 X0\nM2\n',
    ],
    [
      'the same where the places are measured ones',
      'rs274ngc',
      'G21 G90 G94 G54\n#<at> = #<_x>\nG38.2 X[#<at> + 20] F200\n#<found> = #5061\nG0 X[#<found> - 1]\nG38.2 X[#<found> + 0.5] F40 ;! no-retract-after-trip\n#<right> = #5061\nG38.2 X[#<at> - 20]\n#<left> = #5061\nG0 X[[#<right> + #<left>] / 2]\nG10 L20 P1 X0\nM2\n',
    ],
    [
      'on from a place between two measured ones',
      'macro',
      'G21 G90 G94 G54\nG0 X0. Y0.\nG31 Y20. F40.\nIF[#5062GT19.9]GOTO9\n#101=#5062\nG0 Y0.\nG31 Y-20. F40.\nIF[#5062LT-19.9]GOTO9\n#102=#5062\nG0 Y[[#101+#102]/2.]\n#103=[#101+#102]/2.+20.\nG31 Y#103 F40. ;! no-retract-after-trip\nIF[ABS[#5062-#103]LT0.1]GOTO9\n#104=#5062\nG31 Y[#104+1.]\nIF[ABS[#5062-#104-1.]LT0.1]GOTO9\n#5222=#5222+#5062-1.993\nG0 Y0.\nM30\nN9 #3000=1(NO CONTACT)\n',
    ],
    [
      'the side without the alarm goes along the surface',
      'macro',
      `O1
G21 G90 G94 G54
G0 X0. Y0. Z-5.
G31 X20. F30. ;! no-retract-after-trip
#101=#5061
IF[#1004EQ0]GOTO92
G90 G1 Z50. F3000.
#5221=#5221+#101+2.
M30
N92 G90 G1 X0. F3000.
#3000=92(NO SURFACE)
`,
    ],
    [
      'both sides of a status go along the surface',
      'macro',
      `O1
G21 G90 G94 G54
G0 X0. Y0. Z-5.
G31 X20. F30. ;! no-retract-after-trip
#101=#5061
IF[#1004EQ0]GOTO92
G0 Z50.
#500=#101+2.
M30
N92 G0 Z50.
#500=0
M30
`,
    ],
  ],
  [
    [
      'retract inline',
      'rs274ngc',
      `G21 G91 G94
G38.2 X-15 F40
G0 X5
G0 Z10
M2
`,
    ],
    [
      'absolute retract to the stored start',
      'rs274ngc',
      `G21 G90 G94
G0 X0 Y0
#<x0> = #<_x>
G38.2 X15 F40
G0 X#<x0>
G0 Z10
M2
`,
    ],
    [
      'the next call begins with the retract',
      'rs274ngc',
      `G21 G91 G94
o<down> sub
  G38.2 Z-10 F40
o<down> endsub
o<up> sub
  G0 Z5
o<up> endsub
o<down> call
o<up> call
G0 X20
M2
`,
    ],
    [
      'the retract in the caller',
      'rs274ngc',
      `G21 G91 G94
o<down> sub
  G38.2 Z-10 F40
o<down> endsub
o<down> call
G0 Z5
G0 X20
M2
`,
    ],
    [
      'nobody in the file calls it',
      'rs274ngc',
      `o<down> sub
  G21 G91 G94
  G38.2 Z-10 F40
o<down> endsub
`,
    ],
    [
      'to the middle of the bore, which leaves the wall',
      'rs274ngc',
      `G21 G90 G94
G0 X0 Y0
G38.2 X20 F40
#<x1> = #5061
G0 X0
G38.2 X-20
#<x2> = #5061
G0 X[[#<x1> + #<x2>] / 2]
G38.2 Y20
G0 Y0
M2
`,
    ],
    [
      'retract in machine coordinates',
      'rs274ngc',
      `G21 G91 G94
G38.2 Z-10 F40
G53 G0 Z0
G0 X20
M2
`,
    ],
    [
      'the tool length is set before the way up',
      'rs274ngc',
      `G21 G90 G94
G49
G53 G0 Z0
G38.2 Z-100 F100
G43.1 Z#5063
G53 G0 Z0
M2
`,
    ],
    [
      'a back-off ladder',
      'rs274ngc',
      `G21 G91 G94
G38.2 Z-10 F200
G38.4 Z5 F40
G38.2 Z-2 F100
G38.4 Z2 F20
G0 Z10
M2
`,
    ],
    [
      'passing through a light barrier',
      'rs274ngc',
      `G21 G91 G94
G38.2 Z-10 F40
G38.4 Z-10 F40
G0 Z30
M2
`,
    ],
    [
      'both branches retract, each its own way',
      'rs274ngc',
      `G21 G91 G94
G38.2 Y12 F40
o1 if [#1 GT 0]
  G0 Y-5
o1 else
  G53 G0 Y0
o1 endif
G0 Z20
M2
`,
    ],
    [
      'the alarm ends the failing side, the other retracts',
      'macro',
      `G21 G90 G94
G0 Z5.
G31 Z-10. F40.
IF[ABS[#5063+10.]LT0.05]GOTO90
#5223=#5223+#5063
G0 Z5.
M30
N90 #3000=1(NO CONTACT)
`,
    ],
    [
      'guarded travel, several in a row',
      'macro',
      `G21 G91 G94
G31 X50. F800.
IF[#1005EQ1]GOTO90
G31 Y30.
IF[#1005EQ1]GOTO90
G31 Z-20. F300.
IF[#1005EQ1]GOTO90
M30
N90 #3000=2(OBSTRUCTION)
`,
    ],
    [
      'machine coordinates under G91',
      'macro',
      `G21 G90 G94
G0 Z5.
G31 Z-10. F40.
IF[#1005EQ0]GOTO90
#5223=#5223+#5063
G91 G28 Z0
G90
M30
N90 #3000=1(NO CONTACT)
`,
    ],
    [
      'a variable code touches or only moves',
      'macro',
      `G21 G91 G94
#120=31
IF[#1EQ1]GOTO10
#120=1
N10 G#120 Z-10. F40.
G0 X20.
M30
`,
    ],
    [
      'the touch in a called file, the retract in the caller',
      'rs274ngc',
      'G21 G90 G94\nG0 X0 Y0 Z5\no<down> call [20]\nG0 Z5\nG0 X30\nM2\n',
      { down: 'o<down> sub\nG38.2 Z-#1 F40\no<down> endsub\n' },
    ],
    [
      'what the called file does wrong itself is for that file to tell',
      'rs274ngc',
      'G21 G90 G94\nG0 X0 Y0 Z5\no<down> call\nG0 Z5\nM2\n',
      { down: 'o<down> sub\nG38.2 Z-9 F40\nG0 Y50\nG0 Z5\no<down> endsub\n' },
    ],
    [
      'a called file that goes on in a subroutine of its own',
      'rs274ngc',
      'G21 G90 G94\nG0 X0 Y0 Z5\no<both> call\nG0 Z5\nM2\n',
      {
        both: 'o<down> sub\nG38.2 Z-9 F40\no<down> endsub\no<away> sub\nG0 Y50\nG0 Z5\no<away> endsub\no<both> sub\no<down> call\no<away> call\no<both> endsub\n',
      },
    ],
    [
      'a called macro whose caller returns to nobody',
      'macro',
      'O2\nG65 P9810 Z-10.\nM99\n',
      { 9810: 'O9810\nG31 Z#26 F40.\nM99\n' },
    ],
    [
      'back to a place before the measured start',
      'rs274ngc',
      'G21 G90 G94 G54\n#<at> = #<_x>\nG38.2 X[#<at> + 20] F200\n#<found> = #5061\nG0 X[#<found> - 1]\nG38.2 X[#<found> + 0.5] F40\n#<right> = [#5061 + 2]\nG0 X#<at>\nG38.2 X[#<at> - 20]\n#<left> = [#5061 - 2]\nG0 X[[#<right> + #<left>] / 2]\nG10 L20 P1 X0\nM2\n',
    ],
    [
      'the other way by a skip move, which may',
      'macro',
      'G21 G90 G94 G54\nG0 X0. Y0.\nG31 X20. F40.\nIF[#5061GT19.9]GOTO9\n#101=#5061\nG31 X-20.\nIF[#5061LT-19.9]GOTO9\n#5221=#5221+[#101+#5061]/2.\nG0 X0.\nM30\nN9 #3000=1(NO CONTACT)\n',
    ],
    [
      'the side of the alarm lifts: a status tells it, whichever way it is read',
      'macro',
      `O1
G21 G90 G94 G54
G0 X0. Y0. Z-5.
G31 X20. F30.
#101=#5061
IF[#1004EQ0]GOTO92
G90 G1 X0. F3000.
#5221=#5221+#101+2.
G0 Z50.
M30
N92 G90 G1 Z50. F3000.
#3000=92(NO SURFACE)
`,
    ],
    [
      'two touches whose status leads to one way out',
      'macro',
      `O1
G21 G90 G94 G54
G0 X0. Y0. Z-8.
G31 X22. F50.
#101=#5061
IF[#1005NE1]GOTO90
G0 X0.
G31 X-22.
#102=#5061
IF[#1005NE1]GOTO90
G0 X[[#101+#102]/2.]
#5221=#5221+[#101+#102]/2.
G0 Z30.
M30
N90 G91 G28 Z0
G90
#500=0
M99
`,
    ],
  ],
);
