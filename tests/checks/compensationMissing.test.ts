import { describe, expect, it } from 'vitest';
import { checkText } from './marked.ts';
import { testRule } from './rulePrograms.ts';
import { edgeTouched, shopProfile } from './shopProfile.ts';
import { slopingCornerMacro, slopingFace } from './turnedFaces.ts';

testRule(
  'compensation-missing',
  [
    [
      'inline, G10 L2',
      'rs274ngc',
      `${edgeTouched}#<edge> = #5061\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>] ;! compensation-missing\nM2\n`,
      shopProfile,
    ],
    [
      'G92 at the measured place',
      'rs274ngc',
      `${edgeTouched}#<edge> = #5061\nG0 X-5\nG0 X#<edge>\nG92 X0 ;! compensation-missing\nG0 X-5\nG92.1\nM2\n`,
      shopProfile,
    ],
    [
      'no profile at all',
      'rs274ngc',
      `${edgeTouched}#<edge> = #5061\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>] ;! compensation-missing\nM2\n`,
    ],
    [
      'in a called sub, through its result',
      'rs274ngc',
      'o<edge> sub\n  G38.2 X20 F40\n  #<at> = #5061\n  G0 X-5\no<edge> endsub [#<at>]\nG21 G90 G94 G54\nG0 X0 Y0\no<edge> call\nG10 L2 P1 X[#5221 + #<_value>] ;! compensation-missing\nM2\n',
      shopProfile,
    ],
    [
      'one axis of a corner',
      'rs274ngc',
      `${edgeTouched}#<x> = [#5061 + 1.985]\nG0 X-5\nG38.2 Y20 F40\n#<y> = #5062\nG0 Y0\nG10 L2 P1 X[#5221 + #<x>] Y[#5222 + #<y>] ;! compensation-missing\nM2\n`,
      shopProfile,
    ],
    [
      'a distance is added, no radius',
      'rs274ngc',
      `${edgeTouched}#<edge> = #5061\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge> + 25] ;! compensation-missing\nM2\n`,
      shopProfile,
    ],
    [
      'half of the radius is lost',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 1.985 / 2]\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>] ;! compensation-missing\nM2\n`.replace(
        '1.985 / 2',
        '0.5 * [1.985 + #5061 - #5061]',
      ),
      shopProfile,
    ],
    [
      'offset by system variable',
      'macro',
      'G21 G90 G94 G54\nG0 X0. Y0.\nG31 Y-20. F40.\nIF[#5062LT-19.9]GOTO9\n#5222=#5222+#5062 ;! compensation-missing\nG0 Y5.\nM30\nN9 #3000=1(NO CONTACT)\n',
      shopProfile,
    ],
    [
      'on one of two branches',
      'macro',
      'G21 G90 G94 G54\nG0 X0. Y0.\nG31 Y-20. F40.\nIF[#5062LT-19.9]GOTO9\n#101=#5062\nG0 Y5.\nIF[#1EQ1]GOTO5\n#5222=#5222+#101-1.985\nGOTO6\nN5 #5222=#5222+#101 ;! compensation-missing\nN6 M30\nN9 #3000=1(NO CONTACT)\n',
      shopProfile,
    ],
    [
      'along a slope',
      'rs274ngc',
      `${slopingFace}#<edge> = [#<near> - #<slope> * [#<near> - #<far>]]\nG10 L2 P1 X[#5221 + #<edge>] ;! compensation-missing\nM2\n`,
      shopProfile,
    ],
    [
      'of the corner of two slopes',
      'macro',
      `${slopingCornerMacro}#107=#101-#105*10.\n#108=#103-#106*10.\nG10 L2 P1 X[#5221+[#107+#105*#108]/[1.-#105*#106]] ;! compensation-missing\nM30\nN9 #3000=1(NO CONTACT)\n`,
      shopProfile,
    ],
    [
      'beside a round number',
      'rs274ngc',
      `G21 G90 G94 G54
G0 X0 Y0
G38.2 X30 F40
#<edge> = #5061
G0 X-5
G10 L2 P1 X[#5221 + #<edge> + 10.5] ;! compensation-missing
M2
`,
      shopProfile,
    ],
  ],
  [
    [
      'the radius, inline',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 1.985]\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'the radius, and a coordinate that takes off as much',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 2]\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge> - 2]\nM2\n`,
    ],
    [
      'centre of a bore',
      'rs274ngc',
      `${edgeTouched}#<right> = #5061\nG0 X0\nG38.2 X-20 F40\n#<left> = #5061\nG0 X[[#<left> + #<right>] / 2]\nG10 L20 P1 X0\nM2\n`,
      shopProfile,
    ],
    [
      'a face in Z',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0 Z5\nG38.2 Z-20 F40\n#<top> = #5063\nG0 Z5\nG10 L2 P1 Z[#5223 + #<top>]\nM2\n',
      shopProfile,
    ],
    [
      'the radius is an input',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + #<_tip_radius>]\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'the radius is an argument of the sub',
      'rs274ngc',
      'o<edge> sub\n  G38.2 X20 F40\n  #<at> = [#5061 + #1]\n  G0 X-5\no<edge> endsub [#<at>]\nG21 G90 G94 G54\nG0 X0 Y0\no<edge> call [1.985]\nG10 L2 P1 X[#5221 + #<_value>]\nM2\n',
      shopProfile,
    ],
    [
      'the diameter of the tool table',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + #5410 / 2]\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'a number beside a probe that nobody described',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 3]\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
    ],
    [
      'a slanted touch, whose surface is not in the text',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0\nG38.2 X10 Y10 F40\n#<at> = #5061\nG0 X0 Y0\nG10 L2 P1 X[#5221 + #<at>]\nM2\n',
      shopProfile,
    ],
    [
      'the work zero is told where it is, by the word',
      'rs274ngc',
      `${edgeTouched}#<edge> = #5061\nG0 X-5\nG0 X#<edge>\nG10 L20 P1 X-1.985\nG0 X-5\nM2\n`,
      shopProfile,
    ],
    [
      'half the shop’s own parameter',
      'macro',
      'G21 G90 G94 G54\nG0 X0. Y0.\nG31 Y-20. F40.\nIF[#5062LT-19.9]GOTO9\n#5222=#5222+#5062-#520/2.\nG0 Y5.\nM30\nN9 #3000=1(NO CONTACT)\n',
      JSON.stringify({ ...JSON.parse(shopProfile), effectiveDiameterParameter: '#520' }),
    ],
    [
      'a circle through three points needs none',
      'macro',
      'G21 G90 G94 G54\nG0 X0. Y0.\nG31 X20. F40.\nIF[#5061GT19.9]GOTO9\n#1=#5061\nG0 X0.\nG31 Y20. F40.\nIF[#5062GT19.9]GOTO9\n#2=#5062\nG0 Y0.\nG31 Y-20. F40.\nIF[#5062LT-19.9]GOTO9\n#3=#5062\nG0 Y0.\n#4=[#2+#3]/2.\n#5=[#1*#1-#4*#4+#2*#2-2.*#2*#4+#4*#4-[#2-#4]*[#2-#4]+#2*#3]/[2.*#1]\nG10 L2 P1 X[#5221+#5]\nM30\nN9 #3000=1(NO CONTACT)\n',
      shopProfile,
    ],
    [
      'nor where the ways to it are not of one length',
      'macro',
      'G21 G90 G94 G54\nG0 X0. Y0.\nG31 X20. F40.\nIF[#5061GT19.9]GOTO9\n#1=#5061\nG0 X0.\nG31 Y30. F40.\nIF[#5062GT29.9]GOTO9\n#2=#5062\nG0 Y0.\nG31 Y-20. F40.\nIF[#5062LT-19.9]GOTO9\n#3=#5062\nG0 Y0.\n#4=[#2+#3]/2.\n#5=[#1*#1-#4*#4+#2*#2-2.*#2*#4+#4*#4-[#2-#4]*[#2-#4]+#2*#3]/[2.*#1]\nG10 L2 P1 X[#5221+#5]\nM30\nN9 #3000=1(NO CONTACT)\n',
      shopProfile,
    ],
    [
      'a number that is not round: the radius of an older tip may be in it',
      'rs274ngc',
      `G21 G90 G94 G54
G0 X0 Y0
G38.2 X30 F40
#<edge> = #5061
G0 X-5
G10 L2 P1 X[#5221 + #<edge> + 10.175]
M2
`,
      shopProfile,
    ],
  ],
);

describe('compensation-missing', () => {
  it('states half the effective diameter as the error, and the side', () => {
    const text = `${edgeTouched}#<edge> = #5061\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`;
    const [finding] = checkText(text, { dialect: 'rs274ngc', profile: shopProfile }).findings;
    expect(finding?.message).toContain('G54.x comes out 1.99 mm too far to −X');
    expect(finding?.related.map(({ place }) => place.line)).toEqual([2]);
  });
});
