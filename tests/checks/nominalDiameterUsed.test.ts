import { describe, expect, it } from 'vitest';
import { checkText } from './marked.ts';
import { testRule } from './rulePrograms.ts';
import { edgeTouched, shopProfile } from './shopProfile.ts';

const within = JSON.stringify({
  probe: { tipDiameter: 4, calibration: { effectiveDiameter: 3.999, expandedUncertainty: 0.002, feed: 40 } },
});

testRule(
  'nominal-diameter-used',
  [
    [
      'the radius, inline',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 2] ;! nominal-diameter-used\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'half the diameter',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 4 / 2] ;! nominal-diameter-used\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'from a parameter set earlier',
      'rs274ngc',
      `#<tip> = 4\n${edgeTouched}#<edge> = [#5061 + #<tip> / 2] ;! nominal-diameter-used\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'as an argument',
      'rs274ngc',
      'o<edge> sub\n  G38.2 X20 F40\n  #<at> = [#5061 + #1] ;! nominal-diameter-used\n  G0 X-5\no<edge> endsub [#<at>]\nG21 G90 G94 G54\nG0 X0 Y0\no<edge> call [2]\nG10 L2 P1 X[#5221 + #<_value>]\nM2\n',
      shopProfile,
    ],
    [
      'an inch program',
      'rs274ngc',
      'G20 G90 G94 G54\nG0 X0 Y0\nG38.2 X1 F1.5748\n#<edge> = [#5061 + 0.07874] ;! nominal-diameter-used\nG0 X-0.2\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n',
      shopProfile,
    ],
    [
      'by system variable',
      'macro',
      'G21 G90 G94 G54\nG0 X0. Y0.\nG31 Y-20. F40.\nIF[#5062LT-19.9]GOTO9\n#5222=#5222+#5062-2. ;! nominal-diameter-used\nG0 Y5.\nM30\nN9 #3000=1(NO CONTACT)\n',
      shopProfile,
    ],
    [
      'in a width that is left in a parameter',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0\nG38.2 X20 F40\n#<right> = #5061\nG0 X0\nG38.2 X-20 F40\n#<left> = #5061\nG0 X0\n#<_width> = [#<right> - #<left> + 4] ;! nominal-diameter-used\nM2\n',
      shopProfile,
    ],
    [
      'in a width that a comment names',
      'macro',
      '#100=4.\nG21 G90 G94 G54\nG0 X0. Y0.\nG31 X20. F40.\nIF[#5061GT19.9]GOTO9\n#101=#5061\nG0 X0.\nG31 X-20. F40.\nIF[#5061LT-19.9]GOTO9\n#102=#5061\nG0 X0.\n#103=#101-#102+#100 ;! nominal-diameter-used\n(RESULT: #103)\nN9 M30\n',
      shopProfile,
    ],
  ],
  [
    [
      'the effective radius',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 1.985]\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      shopProfile,
    ],
    [
      'actual and effective are one within the uncertainty',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 2]\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
      within,
    ],
    [
      'nobody calibrated this probe',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 2]\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`,
    ],
    [
      'radii that cancel in a centre',
      'rs274ngc',
      `${edgeTouched}#<right> = [#5061 + 2]\nG0 X0\nG38.2 X-20 F40\n#<left> = [#5061 - 2]\nG0 X0\nG10 L2 P1 X[#5221 + [#<left> + #<right>] / 2]\nM2\n`,
      shopProfile,
    ],
    [
      'two millimetres beside the effective radius',
      'rs274ngc',
      `${edgeTouched}#<edge> = [#5061 + 1.985]\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge> - 2]\nM2\n`,
      shopProfile,
    ],
    [
      'two millimetres of height',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0 Z5\nG38.2 Z-20 F40\n#<top> = [#5063 - 2]\nG0 Z5\nG10 L2 P1 Z[#5223 + #<top>]\nM2\n',
      shopProfile,
    ],
    [
      'the effective one by system variable',
      'macro',
      'G21 G90 G94 G54\nG0 X0. Y0.\nG31 Y-20. F40.\nIF[#5062LT-19.9]GOTO9\n#5222=#5222+#5062-1.985\nG0 Y5.\nM30\nN9 #3000=1(NO CONTACT)\n',
      shopProfile,
    ],
    [
      'the effective one in a width',
      'macro',
      '#100=3.97\nG21 G90 G94 G54\nG0 X0. Y0.\nG31 X20. F40.\nIF[#5061GT19.9]GOTO9\n#101=#5061\nG0 X0.\nG31 X-20. F40.\nIF[#5061LT-19.9]GOTO9\n#102=#5061\nG0 X0.\n#103=#101-#102+#100\n(RESULT: #103)\nN9 M30\n',
      shopProfile,
    ],
  ],
);

describe('nominal-diameter-used', () => {
  it('states half of actual less effective, and offers the effective radius', () => {
    const text = `${edgeTouched}#<edge> = [#5061 + 2]\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\nM2\n`;
    const [finding] = checkText(text, { dialect: 'rs274ngc', profile: shopProfile }).findings;
    expect(finding?.message).toContain('15 µm');
    expect(finding?.fixes.map(({ title }) => title)).toEqual(['Use the effective one, 1.985']);
  });
});
