import { testRule } from './rulePrograms.ts';
import { edgeTouched, shopProfile } from './shopProfile.ts';

const inchEdge = 'G20 G90 G94 G54\nG0 X0 Y0\nG38.2 X1 F1.5748\n';

testRule(
  'units-mismatch',
  [
    [
      'inches in millimetres',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 0.07815] ;! units-mismatch\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'millimetres in inches',
      'rs274ngc',
      `${inchEdge}#<edge> = [#5061 + 1.985] ;! units-mismatch\nG0 X-0.2\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'half the diameter',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 0.1563 / 2] ;! units-mismatch\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'the unit was set by a sub called before',
      'rs274ngc',
      `o<inch> sub\n  G20\no<inch> endsub\nG90 G94 G54\no<inch> call\nG0 X0 Y0\nG38.2 X1 F1.5748\n#<edge> = [#5061 + 1.985] ;! units-mismatch\nG0 X-0.2\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'the actual size, not calibrated',
      'rs274ngc',
      `${inchEdge}#<edge> = [#5061 + 2] ;! units-mismatch\nG0 X-0.2\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      JSON.stringify({ probe: { tipDiameter: 4 } }),
    ],
    [
      'by system variable',
      'macro',
      'G21 G90 G94 G54\nG0 X0. Y0.\nG31 Y-20. F40.\nIF[#5062LT-19.9]GOTO9\n#5222=#5222+#5062-.07815 ;! units-mismatch\nG0 Y5.\nM30\nN9 #3000=1(NO CONTACT)\n',
      shopProfile,
    ],
    [
      'millimetres in inches, in a subprogram',
      'macro',
      `O1
G20 G90 G94 G54
G0 X0. Y0.
M98 P2
M30
O2
G31 X1. F1.5748
IF[#5061GT.99]GOTO9
#101=#5061+1.985 ;! units-mismatch
G0 X0.
#5221=#5221+#101
M99
N9 #3000=1(NO CONTACT)
`,
      shopProfile,
    ],
    [
      'the diameter, kept in a variable',
      'macro',
      `G21 G90 G94 G54
#110=.1563
G0 X0. Y0.
G31 X20. F40.
IF[#5061GT19.9]GOTO9
#101=#5061+#110/2. ;! units-mismatch
G0 X0.
#5221=#5221+#101
M30
N9 #3000=1(NO CONTACT)
`,
      shopProfile,
    ],
  ],
  [
    [
      'inches in inches',
      'rs274ngc',
      `${inchEdge}#<edge> = [#5061 + 0.07815]\nG0 X-0.2\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'millimetres in millimetres',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 1.985]\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'a centre with two radii of the other unit, which cancel',
      'rs274ngc',
      `${edgeTouched}#<right> = [#5061 + 0.07815]\nG0 X0\nG38.2 X-20 F40\n#<left> = [#5061 - 0.07815]\nG0 X0\nG10 L2 P1 X[#5221 + [#<left> + #<right>] / 2]\nM2\n`,
      shopProfile,
    ],
    [
      'a height of 0.078',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0 Z5\nG38.2 Z-20 F40\n#<top> = [#5063 - 0.07815]\nG0 Z5\nG10 L2 P1 Z[#5223 + #<top>]\nM2\n',
      shopProfile,
    ],
    [
      'converted in the program',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 0.07815 * 25.4]\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'by system variable, in inches',
      'macro',
      'G20 G90 G94 G54\nG0 X0. Y0.\nG31 Y-1. F1.5748\nIF[#5062LT-.99]GOTO9\n#5222=#5222+#5062-.07815\nG0 Y.2\nM30\nN9 #3000=1(NO CONTACT)\n',
      shopProfile,
    ],
    [
      'millimetres turned into inches',
      'macro',
      `G20 G90 G94 G54
G0 X0. Y0.
G31 X1. F1.5748
IF[#5061GT.99]GOTO9
#101=#5061+1.985/25.4
G0 X0.
#5221=#5221+#101
M30
N9 #3000=1(NO CONTACT)
`,
      shopProfile,
    ],
    [
      'both sides',
      'macro',
      `G21 G90 G94 G54
G0 X0. Y0.
G31 X20. F40.
IF[#5061GT19.9]GOTO9
#101=#5061+.07815
G0 X0.
G31 X-20. F40.
IF[#5061LT-19.9]GOTO9
#102=#5061-.07815
G0 X0.
#5221=#5221+[#101+#102]/2.
M30
N9 #3000=1(NO CONTACT)
`,
      shopProfile,
    ],
  ],
);
