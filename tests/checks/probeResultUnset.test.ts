import { testRule } from './rulePrograms.ts';

const touched = 'G38.2 Z-10 F40\nG0 Z5\nM2\n';
const start = 'G21 G90 G94\nG0 X0 Y0 Z5\n';
const skip = 'G31 Z-10. F40.\nG0 Z5.\nIF[ABS[#5063+10.]LT0.05]GOTO90\n';

testRule(
  'probe-result-unset',
  [
    ['inline', 'rs274ngc', `${start}G10 L2 P1 Z[#5223 + #5063] ;! probe-result-unset\n${touched}`],
    ['saved', 'rs274ngc', `${start}#<_top> = #5063 ;! probe-result-unset\n${touched}`],
    [
      'in the words of the touch itself',
      'rs274ngc',
      `${start}G38.2 Z[#5063 - 10] F40 ;! probe-result-unset\nG0 Z5\nM2\n`,
    ],
    [
      'in a branch',
      'rs274ngc',
      `${start}o1 if [#<_again> EQ 1]\n  #<_top> = #5063 ;! probe-result-unset\no1 endif\n${touched}`,
    ],
    [
      'in a loop before the touch',
      'rs274ngc',
      `${start}#<_n> = 0\no1 while [#<_n> LT 3]\n  #<_n> = [#<_n> + 1]\n  #<_top> = #5063 ;! probe-result-unset\no1 endwhile\n${touched}`,
    ],
    [
      'in a skip program',
      'macro',
      `G21 G90 G94\nG0 X0. Y0. Z5.\n#101=#5063 ;! probe-result-unset\n${skip}#5223=#5223+#101\nM30\nN90 #3000=1(NO CONTACT)\n`,
    ],
    [
      'read by the caller before the call that touches',
      'macro',
      `O1
G21 G90 G94
G0 X0. Y0. Z5.
#101=#5063 ;! probe-result-unset
M98 P2
#5223=#5223+#101
M30
O2
G31 Z-10. F40.
G0 Z5.
IF[ABS[#5063+10.]LT0.05]GOTO9
M99
N9 #3000=1(NO CONTACT)
`,
    ],
    [
      'a jump passes the touch by',
      'macro',
      `G21 G90 G94
G0 X0. Y0. Z5.
IF[#500EQ1]GOTO5
G31 Z-10. F40.
G0 Z5.
IF[ABS[#5063+10.]LT0.05]GOTO9
N5 #5223=#5223+#5063 ;! probe-result-unset
M30
N9 #3000=1(NO CONTACT)
`,
    ],
    [
      'one side of a test passes the touch by',
      'rs274ngc',
      `G21 G90 G94
G0 X0 Y0 Z5
o1 if [#<_fresh> EQ 1]
  G38.2 Z-10 F40
  G0 Z5
o1 endif
G10 L2 P1 Z[#5223 + #5063] ;! probe-result-unset
M2
`,
    ],
    [
      'on the first turn of a loop, before its own touch',
      'rs274ngc',
      `G21 G90 G94
G0 X0 Y0 Z5
#<n> = 0
o1 while [#<n> LT 3]
  #<last> = #5063 ;! probe-result-unset
  G38.2 Z-10 F40
  G0 Z[#<last> + 5]
  #<n> = [#<n> + 1]
o1 endwhile
M2
`,
    ],
  ],
  [
    ['after', 'rs274ngc', `${start}G38.2 Z-10 F40\nG0 Z5\n#<_top> = #5063\nM2\n`],
    [
      'by a called touch',
      'rs274ngc',
      `o<down> sub\n  G38.2 Z-10 F40\n  G0 Z5\no<down> endsub\n${start}o<down> call\n#<_top> = #5063\nM2\n`,
    ],
    [
      'touched under the same condition',
      'rs274ngc',
      `${start}o1 if [#<_on> EQ 1]\n  G38.2 Z-10 F40\n  G0 Z5\no1 endif\no2 if [#<_on> EQ 1]\n  #<_top> = #5063\no2 endif\nM2\n`,
    ],
    [
      'in a subroutine alone',
      'rs274ngc',
      'o<read> sub\n  #<_top> = #5063\n  G38.2 Z-10 F40 ;! mode-assumed\n  G0 Z5\no<read> endsub\n',
    ],
    [
      'earlier in the loop',
      'rs274ngc',
      `${start}#<_n> = 0\no1 while [#<_n> LT 3]\n  #<_n> = [#<_n> + 1]\n  G38.2 Z-10 F40\n  G0 Z5\n  #<_top> = #5063\no1 endwhile\nM2\n`,
    ],
    ['named in a comment', 'rs274ngc', `${start}(#5063 will hold the top)\n${touched}`],
    [
      'after a skip',
      'macro',
      `G21 G90 G94\nG0 X0. Y0. Z5.\n${skip}#5223=#5223+#5063\nM30\nN90 #3000=1(NO CONTACT)\n`,
    ],
    [
      'after a call that touches',
      'macro',
      `O1
G21 G90 G94
G0 X0. Y0. Z5.
M98 P2
#5223=#5223+#5063
M30
O2
G31 Z-10. F40.
G0 Z5.
IF[ABS[#5063+10.]LT0.05]GOTO9
M99
N9 #3000=1(NO CONTACT)
`,
    ],
    [
      'in a macro whose caller may have touched',
      'macro',
      `O9100
#100=#5063
#5223=#5223+#100
M99
`,
    ],
    [
      'one touch or another',
      'rs274ngc',
      `G21 G90 G94
G0 X0 Y0 Z5
o1 if [#<_side> EQ 1]
  G38.2 X10 F40
  G0 X0
o1 endif
o2 if [#<_side> EQ -1]
  G38.2 X-10 F40
  G0 X0
o2 endif
#<_edge> = #5061
M2
`,
    ],
    [
      'from the second turn of the loop on',
      'rs274ngc',
      `G21 G90 G94
G0 X0 Y0 Z5
#<n> = 0
o1 while [#<n> LT 3]
  o2 if [#<n> GT 0]
    #<_last> = #5063
  o2 endif
  G38.2 Z-10 F40
  G0 Z5
  #<n> = [#<n> + 1]
o1 endwhile
M2
`,
    ],
    [
      'after a loop that touches',
      'macro',
      `G21 G90 G94
G0 X0. Y0. Z5.
#100=0
WHILE[#100LT2]DO1
G31 Z-10. F40.
G0 Z5.
IF[ABS[#5063+10.]LT0.05]GOTO9
#100=#100+1
END1
#5223=#5223+#5063
M30
N9 #3000=1(NO CONTACT)
`,
    ],
    [
      'a test leads past the touch and past the read',
      'macro',
      `G21 G90 G94
G0 X0. Y0. Z5.
IF[#500EQ1]GOTO5
G31 Z-10. F40.
G0 Z5.
IF[ABS[#5063+10.]LT0.05]GOTO9
#5223=#5223+#5063
N5 G0 X10.
M30
N9 #3000=1(NO CONTACT)
`,
    ],
  ],
);
