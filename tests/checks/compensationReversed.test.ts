import { testRule } from './rulePrograms.ts';
import { edgeTouched, shopProfile } from './shopProfile.ts';
import { slopingCornerMacro, slopingFace } from './turnedFaces.ts';

testRule(
  'compensation-reversed',
  [
    [
      'inline',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 - 1.985] ;! compensation-reversed\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'half the diameter',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 - 3.97 / 2] ;! compensation-reversed\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'the word of G10 L20',
      'rs274ngc',
      `${edgeTouched}#<edge> = #5061\nG0 X-5\nG0 X#<edge>\nG10 L20 P1 X1.985 ;! compensation-reversed\nG0 X-5\nM2\n`,
      shopProfile,
    ],
    [
      'from a parameter set earlier',
      'rs274ngc',
      `#<tip> = 3.97\n${edgeTouched}#<edge> = [#5061 - #<tip> / 2] ;! compensation-reversed\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'in a called sub, by an argument',
      'rs274ngc',
      'o<edge> sub\n  G38.2 X20 F40\n  #<at> = [#5061 - #1] ;! compensation-reversed\n  G0 X-5\no<edge> endsub [#<at>]\nG21 G90 G94 G54\nG0 X0 Y0\no<edge> call [1.985]\nG10 L2 P1 X[#5221 + #<_value>]\nM2\n',
      shopProfile,
    ],
    [
      'two sides by copy and paste: the other axis is right',
      'rs274ngc',
      `${edgeTouched}#<x> = [#5061 + 1.985]\nG0 X-5\nG38.2 Y20 F40\n#<y> = [#5062 - 1.985] ;! compensation-reversed\nG0 Y0\nG10 L2 P1 X[#5221 + #<x>] Y[#5222 + #<y>]\nM2\n`,
      shopProfile,
    ],
    [
      'towards minus',
      'macro',
      'G21 G90 G94 G54\nG0 X0. Y0.\nG31 Y-20. F40.\nIF[#5062LT-19.9]GOTO9\n#5222=#5222+#5062+1.985 ;! compensation-reversed\nG0 Y5.\nM30\nN9 #3000=1(NO CONTACT)\n',
      shopProfile,
    ],
    [
      'the shop’s own parameter',
      'macro',
      'G21 G90 G94 G54\nG0 X0. Y0.\nG31 Y-20. F40.\nIF[#5062LT-19.9]GOTO9\n#5222=#5222+#5062+#520/2. ;! compensation-reversed\nG0 Y5.\nM30\nN9 #3000=1(NO CONTACT)\n',
      JSON.stringify({ ...JSON.parse(shopProfile), effectiveDiameterParameter: '#520' }),
    ],
    [
      'a width that is left in a parameter',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0\nG38.2 X20 F40\n#<right> = #5061\nG0 X0\nG38.2 X-20 F40\n#<left> = #5061\nG0 X0\n#<_width> = [#<right> - #<left> - 3.97] ;! compensation-reversed\nM2\n',
      shopProfile,
    ],
    [
      'a width that a comment names, and a mean of it',
      'macro',
      'G21 G90 G94 G54\nG0 X0. Y0.\nG31 X20. F40.\nIF[#5061GT19.9]GOTO9\n#101=#5061\nG0 X0.\nG31 X-20. F40.\nIF[#5061LT-19.9]GOTO9\n#102=#5061\nG0 X0.\n#103=#101-#102-3.97 ;! compensation-reversed\n#104=#103/2.(HALF) ;! compensation-reversed\n(RESULTS: #103 THE WIDTH)\nN9 M30\n',
      shopProfile,
    ],
    [
      'along a slope',
      'rs274ngc',
      `${slopingFace}#<edge> = [#<near> + 10 * #<slope> - 1.985 * SQRT[1 + #<slope> * #<slope>]] ;! compensation-reversed\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'of the corner of two slopes',
      'macro',
      `${slopingCornerMacro}#107=#101-#105*10.-1.985*SQRT[1.+#105*#105] ;! compensation-reversed\n#108=#103-#106*10.+1.985*SQRT[1.+#106*#106]\n#109=[#107+#105*#108]/[1.-#105*#106]\nG10 L2 P1 X[#5221+#109]\nM30\nN9 #3000=1(NO CONTACT)\n`,
      shopProfile,
    ],
  ],
  [
    [
      'towards minus, taken off',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0\nG38.2 X-20 F40\n#<edge> = [#5061 - 1.985]\nG0 X5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n',
      shopProfile,
    ],
    [
      'towards plus, added',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 1.985]\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'incremental, towards minus',
      'rs274ngc',
      'G21 G91 G94 G54\nG38.2 X-20 F40\n#<edge> = [#5061 - 1.985]\nG0 X5\nG90\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n',
      shopProfile,
    ],
    [
      'the edge of a boss, both sides, their difference kept',
      'rs274ngc',
      `${edgeTouched}#<left> = [#5061 + 1.985]\nG0 X-5\nG0 Z20\nG0 X60\nG0 Z0 ;! unguarded-approach\nG38.2 X30 F40\n#<right> = [#5061 - 1.985]\nG0 X60\nG10 L2 P1 X[#5221 + [#<left> + #<right>] / 2]\nM2\n`,
      shopProfile,
    ],
    [
      'a square distance beside the radius',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 1.985 - 10]\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'the sign comes from outside',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + #<_side> * 1.985]\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'towards minus, offset by variable',
      'macro',
      'G21 G90 G94 G54\nG0 X0. Y0.\nG31 Y-20. F40.\nIF[#5062LT-19.9]GOTO9\n#5222=#5222+#5062-1.985\nG0 Y5.\nM30\nN9 #3000=1(NO CONTACT)\n',
      shopProfile,
    ],
    [
      'a width with the diameter added',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0\nG38.2 X20 F40\n#<right> = #5061\nG0 X0\nG38.2 X-20 F40\n#<left> = #5061\nG0 X0\n#<_width> = [#<right> - #<left> + 3.97]\nM2\n',
      shopProfile,
    ],
    [
      'a width left as the ball went',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0\nG38.2 X20 F40\n#<right> = #5061\nG0 X0\nG38.2 X-20 F40\n#<left> = #5061\nG0 X0\n#<_way> = [#<right> - #<left>]\nM2\n',
      shopProfile,
    ],
    [
      'a width with a clearance taken off',
      'macro',
      'G21 G90 G94 G54\nG0 X0. Y0.\nG31 X20. F40.\nIF[#5061GT19.9]GOTO9\n#101=#5061\nG0 X0.\nG31 X-20. F40.\nIF[#5061LT-19.9]GOTO9\n#102=#5061\nG0 X0.\n#103=#101-#102-4.\n(#103 IS THE WAY)\nN9 M30\n',
      shopProfile,
    ],
    [
      'the outer width of a boss',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X-30 Y0\nG38.2 X-5 F40\n#<left> = #5061\nG0 X-30\nG0 Z20\nG0 X30\nG0 Z0 ;! unguarded-approach\nG38.2 X5 F40\n#<right> = #5061\nG0 X30\n#<_width> = [#<right> - #<left> - 3.97]\nM2\n',
      shopProfile,
    ],
    [
      'on the right side along a slope',
      'rs274ngc',
      `${slopingFace}#<edge> = [#<near> + 10 * #<slope> + 1.985 * SQRT[1 + #<slope> * #<slope>]]\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'on the right side of the corner of two slopes',
      'macro',
      `${slopingCornerMacro}#107=#101-#105*10.+1.985*SQRT[1.+#105*#105]\n#108=#103-#106*10.+1.985*SQRT[1.+#106*#106]\n#109=[#107+#105*#108]/[1.-#105*#106]\nG10 L2 P1 X[#5221+#109] Y[#5222+#108+#106*#109]\nM30\nN9 #3000=1(NO CONTACT)\n`,
      shopProfile,
    ],
    [
      'through the cosine of the measured angle',
      'rs274ngc',
      `${slopingFace}#<edge> = [#<near> + 10 * #<slope> + 1.985 / COS[ATAN[#<slope>]/[1]]]\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
  ],
);
