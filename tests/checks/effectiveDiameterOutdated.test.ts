import { testRule } from './rulePrograms.ts';
import { edgeTouched, shopProfile } from './shopProfile.ts';

testRule(
  'effective-diameter-outdated',
  [
    [
      'the radius, inline',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 1.96] ;! effective-diameter-outdated\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'half the diameter',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 3.92 / 2] ;! effective-diameter-outdated\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'from a parameter set earlier',
      'rs274ngc',
      `#<tip> = 3.92\n${edgeTouched}#<edge> = [#5061 + #<tip> / 2] ;! effective-diameter-outdated\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'the word of G10 L20',
      'rs274ngc',
      `${edgeTouched}#<edge> = #5061\nG0 X-5\nG0 X#<edge>\nG10 L20 P1 X-1.96 ;! effective-diameter-outdated\nG0 X-5\nM2\n`,
      shopProfile,
    ],
    [
      'an inch program, in a called sub',
      'rs274ngc',
      'o<edge> sub\n  G38.2 X1 F1.5748\n  #<at> = [#5061 + 0.0771] ;! effective-diameter-outdated\n  G0 X-0.2\no<edge> endsub [#<at>]\nG20 G90 G94 G54\nG0 X0 Y0\no<edge> call\nG10 L2 P1 X[#5221 + #<_value>]\nM2\n',
      shopProfile,
    ],
    [
      'by system variable',
      'macro',
      'G21 G90 G94 G54\nG0 X0. Y0.\nG31 Y-20. F40.\nIF[#5062LT-19.9]GOTO9\n#5222=#5222+#5062-1.96 ;! effective-diameter-outdated\nG0 Y5.\nM30\nN9 #3000=1(NO CONTACT)\n',
      shopProfile,
    ],
    [
      'kept in a variable, used in a subprogram',
      'macro',
      `O1
G21 G90 G94 G54
#110=3.92
G0 X0. Y0.
M98 P2
M30
O2
G31 X20. F40.
IF[#5061GT19.9]GOTO9
#101=#5061+#110/2. ;! effective-diameter-outdated
G0 X0.
#5221=#5221+#101
M99
N9 #3000=1(NO CONTACT)
`,
      shopProfile,
    ],
    [
      'on one branch',
      'macro',
      `G21 G90 G94 G54
G0 X0. Y0.
G31 X20. F40.
IF[#5061GT19.9]GOTO9
#101=#5061+1.985
IF[#500EQ1]GOTO5
#101=#5061+1.96 ;! effective-diameter-outdated
G0 X0.
#5221=#5221+#101
M30
N5 G0 X0.
#5221=#5221+#101
M30
N9 #3000=1(NO CONTACT)
`,
      shopProfile,
    ],
  ],
  [
    [
      'the current one',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 1.985]\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'within its uncertainty',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 3.9715 / 2]\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'nobody calibrated this probe',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 1.96]\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
    ],
    [
      'two millimetres off the middle of a bore',
      'rs274ngc',
      `${edgeTouched}#<right> = #5061\nG0 X0\nG38.2 X-20 F40\n#<left> = #5061\nG0 X0\nG10 L2 P1 X[#5221 + [#<left> + #<right>] / 2 + 1.96]\nM2\n`,
      shopProfile,
    ],
    [
      'a height',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0 Z5\nG38.2 Z-20 F40\n#<top> = [#5063 - 1.96]\nG0 Z5\nG10 L2 P1 Z[#5223 + #<top>]\nM2\n',
      shopProfile,
    ],
    [
      'the current one by system variable',
      'macro',
      'G21 G90 G94 G54\nG0 X0. Y0.\nG31 Y-20. F40.\nIF[#5062LT-19.9]GOTO9\n#5222=#5222+#5062-3.97/2.\nG0 Y5.\nM30\nN9 #3000=1(NO CONTACT)\n',
      shopProfile,
    ],
    [
      'an argument of a call',
      'macro',
      `O1
G21 G90 G94 G54
G0 X0. Y0.
G65 P2 D3.97
M30
O2
G31 X20. F40.
IF[#5061GT19.9]GOTO9
#101=#5061+#7/2.
G0 X0.
#5221=#5221+#101
M99
N9 #3000=1(NO CONTACT)
`,
      shopProfile,
    ],
    [
      'a variable that the file does not set',
      'macro',
      `G21 G90 G94 G54
G0 X0. Y0.
G31 X20. F40.
IF[#5061GT19.9]GOTO9
#101=#5061+#520
G0 X0.
#5221=#5221+#101
M30
N9 #3000=1(NO CONTACT)
`,
      shopProfile,
    ],
  ],
);
