import { testRule } from './rulePrograms.ts';
import { edgeTouched, shopProfile } from './shopProfile.ts';
import { slopingFace } from './turnedFaces.ts';

testRule(
  'compensation-doubled',
  [
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
