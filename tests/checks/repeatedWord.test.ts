import { describe, expect, it } from 'vitest';
import { applied, checkText, told } from './marked.ts';
import { testRule } from './rulePrograms.ts';

testRule(
  'repeated-word',
  [
    ['an axis', 'rs274ngc', 'G21 G90 G94\nG0 X5 Y2 X6 ;! repeated-word\nM2\n'],
    ['three times, one finding', 'rs274ngc', 'G21 G90 G94\nG1 F100 X5 F200 F300 ;! repeated-word\nM2\n'],
    ['with the same value', 'rs274ngc', 'G21 G90 G94\nG1 X5 Y0 X5. F100 ;! repeated-word\nM2\n'],
    [
      'lower and upper case, in a subroutine',
      'rs274ngc',
      'G21 G90 G94\no<a> sub\n  G0 x5 X6 ;! repeated-word\no<a> endsub\no<a> call\nM2\n',
    ],
    [
      'with values from expressions, on a branch',
      'rs274ngc',
      'G21 G90 G94\no1 if [#1 GT 0]\n  G0 Z[#1] Z#2 ;! repeated-word\no1 endif\nM2\n',
    ],
    ['in a touch', 'rs274ngc', 'G21 G91 G94\nG38.2 Z-5 F40 Z-5 ;! repeated-word\nG0 Z5\nM2\n'],
    ['two letters', 'rs274ngc', 'G21 G90 G94\nG0 X1 Y1 X2 Y2 ;! repeated-word repeated-word\nM2\n'],
  ],
  [
    ['G and M words', 'rs274ngc', 'G17 G21 G90 G94\nG0 G54 X5 M3 M8 S10\nM5 M9\nM2\n'],
    ['settings of one parameter', 'rs274ngc', 'G21 G90 G94\n#1=2 #1=3\nM2\n'],
    ['different letters', 'rs274ngc', 'G21 G90 G94\nG2 X5 Y5 Z-1 I2 J2 F100 P1\nM2\n'],
    ['on the next line', 'rs274ngc', 'G21 G90 G94\nG0 X5\nX6\nX7\nM2\n'],
    ['in a comment', 'rs274ngc', 'G21 G90 G94\nG0 X5 (X6 X7)\nM2\n'],
    [
      'the arguments of a call',
      'rs274ngc',
      'G21 G90 G94\no<a> sub\n  G0 X#1\no<a> endsub\no<a> call [1] [1] [1]\nM2\n',
    ],
    ['I, J and K of a call', 'macro', 'G21 G90 G94\nG65 P9100 I1. J2. I3. J4.\nM30\n'],
    ['the last one counts', 'macro', 'G21 G90 G94\nG0 X5. X6.\nM30\n'],
    [
      'two G and two M codes',
      'macro',
      `G21 G90 G94 G17
G0 G40 X5. M5 M9
M30
`,
    ],
  ],
);

describe('repeated-word', () => {
  it('follows the standard', () => {
    // NISTIR 6556, 3.3.5 (case RS-ML-1, read): one word of any letter but G and M.
    expect(told(checkText('g21 g90 g94 g0\nx1 x2\nm2\n', { dialect: 'rs274ngc' }).findings)).toEqual([
      '2 repeated-word',
    ]);
  });

  it('leaves the first of them, and says whether that changes the motion', () => {
    const text = 'G21 G90 G94\nG1 X5 (a) X6 F100 X7\nG1 Y1 Y1.0\nM2\n';
    const [different, same] = checkText(text, { dialect: 'rs274ngc' }).findings;
    expect(different?.fixes[0]?.changesMotion).toBe(true);
    expect(same?.fixes[0]?.changesMotion).toBe(false);
    expect(applied(text, different?.fixes[0]?.edits ?? [])).toBe(text.replace(' X6', '').replace(' X7', ''));
  });
});
