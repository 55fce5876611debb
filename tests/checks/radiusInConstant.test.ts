import { testRule } from './rulePrograms.ts';
import { edgeTouched, shopProfile } from './shopProfile.ts';

const threeMillimetres = JSON.stringify({ probe: { tipDiameter: 6.35 } });

testRule(
  'radius-in-constant',
  [
    [
      'a distance and the effective radius',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 9.485] ;! radius-in-constant\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'a plate and the actual radius, in the word of G10 L20',
      'rs274ngc',
      `${edgeTouched}#<edge> = #5061\nG0 X-5\nG0 X#<edge>\nG10 L20 P1 X-10.175 ;! radius-in-constant\nG0 X-5\nM2\n`,
      threeMillimetres,
    ],
    [
      'a distance less the radius',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 - 8.015] ;! radius-in-constant\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'summed in the program',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + [7.5 + 1.985]] ;! radius-in-constant\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'as an argument',
      'rs274ngc',
      'o<edge> sub\n  G38.2 X20 F40\n  #<at> = [#5061 + #1] ;! radius-in-constant\n  G0 X-5\no<edge> endsub [#<at>]\nG21 G90 G94 G54\nG0 X0 Y0\no<edge> call [9.485]\nG10 L2 P1 X[#5221 + #<_value>]\nM2\n',
      shopProfile,
    ],
    [
      'by system variable',
      'macro',
      'G21 G90 G94 G54\nG0 X0. Y0.\nG31 Y-20. F40.\nIF[#5062LT-19.9]GOTO9\n#5222=#5222+#5062-9.485 ;! radius-in-constant\nG0 Y50.\nM30\nN9 #3000=1(NO CONTACT)\n',
      shopProfile,
    ],
    [
      'a plate and the tip, in a subprogram',
      'macro',
      `O1
G21 G90 G94 G54
G0 X0. Y0.
M98 P2
M30
O2
G31 X20. F40.
IF[#5061GT19.9]GOTO9
#101=#5061+9.485 ;! radius-in-constant
G0 X0.
#5221=#5221+#101
M99
N9 #3000=1(NO CONTACT)
`,
      shopProfile,
    ],
    [
      'kept in a variable, written in inches',
      'macro',
      `G20 G90 G94 G54
#110=.57815
G0 X0. Y0.
G31 Y-1. F1.5748
IF[#5062LT-.99]GOTO9
#102=#5062-#110 ;! radius-in-constant
G0 Y0.
#5222=#5222+#102
M30
N9 #3000=1(NO CONTACT)
`,
      shopProfile,
    ],
  ],
  [
    [
      'the two parts apart',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 1.985 + 7.5]\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'the radius from the tool table',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + #5410 / 2 + 9.485]\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'beside the middle of a bore',
      'rs274ngc',
      `${edgeTouched}#<right> = #5061\nG0 X0\nG38.2 X-20 F40\n#<left> = #5061\nG0 X0\nG10 L2 P1 X[#5221 + [#<left> + #<right>] / 2 + 9.485]\nM2\n`,
      shopProfile,
    ],
    [
      'a height',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0 Z5\nG38.2 Z-20 F40\n#<top> = [#5063 - 9.485]\nG0 Z5\nG10 L2 P1 Z[#5223 + #<top>]\nM2\n',
      shopProfile,
    ],
    [
      'an input enters as well',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + #<_tip> + 9.485]\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'the two parts apart, by system variable',
      'macro',
      'G21 G90 G94 G54\nG0 X0. Y0.\nG31 Y-20. F40.\nIF[#5062LT-19.9]GOTO9\n#5222=#5222+#5062-1.985-7.5\nG0 Y50.\nM30\nN9 #3000=1(NO CONTACT)\n',
      shopProfile,
    ],
    [
      'both sides, where it is the width that counts',
      'macro',
      `G21 G90 G94 G54
G0 X0. Y0.
G31 X20. F40.
IF[#5061GT19.9]GOTO9
#101=#5061+9.485
G0 X0.
G31 X-20. F40.
IF[#5061LT-19.9]GOTO9
#102=#5061-9.485
G0 X0.
#5221=#5221+[#101+#102]/2.
M30
N9 #3000=1(NO CONTACT)
`,
      shopProfile,
    ],
    [
      'handed over by the caller',
      'macro',
      `O1
G21 G90 G94 G54
G0 X0. Y0.
G65 P2 D7.5
M30
O2
G31 X20. F40.
IF[#5061GT19.9]GOTO9
#101=#5061+#7+1.985
G0 X0.
#5221=#5221+#101
M99
N9 #3000=1(NO CONTACT)
`,
      shopProfile,
    ],
  ],
);
