import { testRule } from './rulePrograms.ts';
import { edgeTouched, shopProfile } from './shopProfile.ts';
import { slopingFace } from './turnedFaces.ts';

/** A bore or a boss of which X and Y are touched; `x` and `y` are its two sizes, the tip's diameter in them. */
const bored =
  'G21 G90 G94 G54\nG0 X0 Y0\nG38.2 X20 F40\n#<a> = #5061\nG0 X0\nG38.2 X-20\n#<b> = #5061\nG0 X0\nG38.2 Y20\n#<c> = #5062\nG0 Y0\nG38.2 Y-20\n#<d> = #5062\nG0 Y0\n#<x> = [#<a> - #<b> + 3.97]\n#<y> = [#<c> - #<d> + 3.97]\n';
const boredMacro =
  'G21 G90 G94 G54\nG0 X0. Y0.\nG31 X20. F40.\nIF[#5061GT19.9]GOTO9\n#101=#5061\nG0 X0.\nG31 X-20.\nIF[#5061LT-19.9]GOTO9\n#102=#5061\nG0 X0.\nG31 Y20.\nIF[#5062GT19.9]GOTO9\n#103=#5062\nG0 Y0.\nG31 Y-20.\nIF[#5062LT-19.9]GOTO9\n#104=#5062\nG0 Y0.\n';
const boss =
  'o<side> sub\n  G38.2 X#1 F40\n  #<at> = #5061\n  G0 X#2\no<side> endsub [#<at>]\nG21 G90 G94 G54\nG0 X40 Y0\no<side> call [0] [40]\n#<a> = #<_value>\nG0 Z50\nG0 X-40\nG0 Z0\no<side> call [0] [-40]\n#<b> = #<_value>\nG0 Z50\nG0 X0 Y40\nG0 Z0\nG38.2 Y0\n#<c> = #5062\nG0 Y40\nG0 Z50\nG0 Y-40\nG0 Z0\nG38.2 Y0\n#<d> = #5062\nG0 Y-40\n#<x> = [#<a> - #<b> - 3.97]\n#<y> = [#<c> - #<d> - 3.97]\n';

testRule(
  'compensation-doubled',
  [
    [
      'a size along X and one along Y added up, left as a result',
      'rs274ngc',
      `${bored}#<_mean> = [#<x> + #<y>] ;! compensation-doubled\nM2\n`,
      shopProfile,
    ],
    [
      'both in one sum, told by a comment',
      'macro',
      `${boredMacro}#105=#101-#102+#103-#104+3.97+3.97 ;! compensation-doubled\n(#105 THE MEAN DIAMETER)\nN9 M30\n`,
      shopProfile,
    ],
    [
      'the same outside, with a side in a called sub',
      'rs274ngc',
      `${boss}#<_mean> = [#<x> + #<y>] ;! compensation-doubled\nM2\n`,
      shopProfile,
    ],
    [
      'ABS of a sum where a difference belongs',
      'rs274ngc',
      `${bored}#<_round> = [ABS[#<x> + #<y>] / 2] ;! compensation-doubled\nM2\n`,
      shopProfile,
    ],
    [
      'ABS of a sum of four coordinates',
      'macro',
      `${boredMacro}#105=ABS[#101-#102+3.97+#103-#104+3.97]/2. ;! compensation-doubled\n(#105 OUT OF ROUND)\nN9 M30\n`,
      shopProfile,
    ],
    [
      'the diameter, inline',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 3.97] ;! compensation-doubled\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'the radius twice',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 1.985] ;! compensation-doubled\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge> + 1.985]\nM2\n`,
      shopProfile,
    ],
    [
      'the tool table’s diameter, not halved',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + #5410] ;! compensation-doubled\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'the diameter as an argument',
      'rs274ngc',
      'o<edge> sub\n  G38.2 X20 F40\n  #<at> = [#5061 + #1] ;! compensation-doubled\n  G0 X-5\no<edge> endsub [#<at>]\nG21 G90 G94 G54\nG0 X0 Y0\no<edge> call [3.97]\nG10 L2 P1 X[#5221 + #<_value>]\nM2\n',
      shopProfile,
    ],
    [
      'the word of G10 L20',
      'rs274ngc',
      `${edgeTouched}#<edge> = #5061\nG0 X-5\nG0 X#<edge>\nG10 L20 P1 X-3.97 ;! compensation-doubled\nG0 X-5\nM2\n`,
      shopProfile,
    ],
    [
      'a radius in the centre of a bore',
      'rs274ngc',
      `${edgeTouched}#<right> = #5061\nG0 X0\nG38.2 X-20 F40\n#<left> = #5061\nG0 X0\n#<centre> = [[#<left> + #<right>] / 2 + 1.985] ;! compensation-doubled\nG10 L2 P1 X[#5221 + #<centre>]\nM2\n`,
      shopProfile,
    ],
    [
      'the diameter by system variable',
      'macro',
      'G21 G90 G94 G54\nG0 X0. Y0.\nG31 Y-20. F40.\nIF[#5062LT-19.9]GOTO9\n#5222=#5222+#5062-3.97 ;! compensation-doubled\nG0 Y5.\nM30\nN9 #3000=1(NO CONTACT)\n',
      shopProfile,
    ],
    [
      'a width that takes a radius',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0\nG38.2 X20 F40\n#<right> = #5061\nG0 X0\nG38.2 X-20 F40\n#<left> = #5061\nG0 X0\n#<_width> = [#<right> - #<left> + 1.985] ;! compensation-doubled\nM2\n',
      shopProfile,
    ],
    [
      'a middle that takes the diameter, left for a caller',
      'rs274ngc',
      'o<mid> sub\n  G38.2 X20 F40\n  #<right> = #5061\n  G0 X0\n  G38.2 X-20 F40\n  #<left> = #5061\n  G0 X0\n  #<_middle> = [[#<right> + #<left>] / 2 + 3.97] ;! compensation-doubled\no<mid> endsub\nG21 G90 G94 G54\nG0 X0 Y0\no<mid> call\nM2\n',
      shopProfile,
    ],
    [
      'a width that is told by a comment',
      'macro',
      'G21 G90 G94 G54\nG0 X0. Y0.\nG31 X20. F40.\nIF[#5061GT19.9]GOTO9\n#101=#5061\nG0 X0.\nG31 X-20. F40.\nIF[#5061LT-19.9]GOTO9\n#102=#5061\nG0 X0.\n#103=#101-#102+3.97*2. ;! compensation-doubled\n(#103 THE WIDTH)\nN9 M30\n',
      shopProfile,
    ],
    [
      'along a slope',
      'rs274ngc',
      `${slopingFace}#<edge> = [#<near> + 10 * #<slope> + 3.97 * SQRT[1 + #<slope> * #<slope>]] ;! compensation-doubled\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
  ],
  [
    [
      'half of the sum of a size along X and one along Y',
      'rs274ngc',
      `${bored}#<_mean> = [[#<x> + #<y>] / 2]\n#<_round> = [ABS[#<x> - #<y>] / 2]\nM2\n`,
      shopProfile,
    ],
    [
      'a sum that is halved later',
      'macro',
      `${boredMacro}#105=#101-#102+#103-#104+3.97*2.\n#106=#105/2.\n(#106 THE MEAN)\nN9 M30\n`,
      shopProfile,
    ],
    [
      'ABS around sizes counted backwards',
      'rs274ngc',
      `${bored.slice(0, bored.indexOf('#<x>'))}#<_mean> = [ABS[#<b> - #<a> - 3.97 + #<d> - #<c> - 3.97] / 2]\nM2\n`,
      shopProfile,
    ],
    [
      'ABS of how far the mean is from the drawing',
      'rs274ngc',
      `${bored}#<_off> = ABS[[#<x> + #<y>] / 2 - 38]\nM2\n`,
      shopProfile,
    ],
    [
      'two widths along X added up',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0\nG38.2 X20 F40\n#<a> = #5061\nG0 X0\nG38.2 X-20\n#<b> = #5061\nG0 X0\nG0 Y30\nG38.2 X20\n#<c> = #5061\nG0 X0\nG38.2 X-20\n#<d> = #5061\nG0 X0\n#<_both> = [#<a> - #<b> + #<c> - #<d> + 2 * 3.97]\nM2\n',
      shopProfile,
    ],
    [
      'the radius once',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 1.985]\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'radii that cancel in a centre',
      'rs274ngc',
      `${edgeTouched}#<right> = [#5061 + 1.985]\nG0 X0\nG38.2 X-20 F40\n#<left> = [#5061 - 1.985]\nG0 X0\nG10 L2 P1 X[#5221 + [#<left> + #<right>] / 2]\nM2\n`,
      shopProfile,
    ],
    [
      'the tool table’s diameter, halved',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + #5410 / 2]\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'the radius and a distance of four millimetres',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 1.985]\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge> - 40]\nM2\n`,
      shopProfile,
    ],
    [
      'the middle of a bore gets a coordinate of the size of the radius',
      'rs274ngc',
      `${edgeTouched}#<right> = #5061\nG0 X0\nG38.2 X-20 F40\n#<left> = #5061\nG0 X[[#<left> + #<right>] / 2]\nG10 L20 P1 X2\nM2\n`,
      shopProfile,
    ],
    [
      'the same with a probe that nobody described',
      'rs274ngc',
      `${edgeTouched}#<right> = #5061\nG0 X0\nG38.2 X-20 F40\n#<left> = #5061\nG0 X[[#<left> + #<right>] / 2]\nG10 L20 P1 X-1.97\nM2\n`,
    ],
    [
      'a face at a coordinate of the size of the radius',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 1.985]\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge> + 2]\nM2\n`,
      shopProfile,
    ],
    [
      'half of the argument',
      'rs274ngc',
      'o<edge> sub\n  G38.2 X20 F40\n  #<at> = [#5061 + #1 / 2]\n  G0 X-5\no<edge> endsub [#<at>]\nG21 G90 G94 G54\nG0 X0 Y0\no<edge> call [3.97]\nG10 L2 P1 X[#5221 + #<_value>]\nM2\n',
      shopProfile,
    ],
    [
      'a height of four millimetres',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0 Z5\nG38.2 Z-20 F40\n#<top> = [#5063 + 3.97]\nG0 Z5\nG10 L2 P1 Z[#5223 + #<top>]\nM2\n',
      shopProfile,
    ],
    [
      'the radius by system variable',
      'macro',
      'G21 G90 G94 G54\nG0 X0. Y0.\nG31 Y-20. F40.\nIF[#5062LT-19.9]GOTO9\n#5222=#5222+#5062-3.97/2.\nG0 Y5.\nM30\nN9 #3000=1(NO CONTACT)\n',
      shopProfile,
    ],
    [
      'a width that takes the diameter',
      'macro',
      'G21 G90 G94 G54\nG0 X0. Y0.\nG31 X20. F40.\nIF[#5061GT19.9]GOTO9\n#101=#5061\nG0 X0.\nG31 X-20. F40.\nIF[#5061LT-19.9]GOTO9\n#102=#5061\nG0 X0.\n#103=#101-#102+3.97\nN9 M30\n',
      shopProfile,
    ],
    [
      'a mean of two widths',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0\nG38.2 X20 F40\n#<right> = #5061\nG0 X0\nG38.2 X-20 F40\n#<left> = #5061\nG0 X0\n#<across> = [#<right> - #<left> + 3.97]\nG38.2 X20 F40\n#<again> = #5061\nG0 X0\n#<_mean> = [[#<across> + #<again> - #<left> + 3.97] / 2]\nM2\n',
      shopProfile,
    ],
    [
      'half of it along a slope',
      'rs274ngc',
      `${slopingFace}#<edge> = [#<near> + 10 * #<slope> + 3.97 * SQRT[1 + #<slope> * #<slope>] / 2]\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
  ],
);
