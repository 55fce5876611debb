import { describe, expect, it } from 'vitest';
import { checkText } from './marked.ts';
import { testRule } from './rulePrograms.ts';

const shop = JSON.stringify({
  probe: { overtravel: { lateral: 5, axial: 3 } },
  machine: { deceleration: 100, reactionTime: 0.01 },
});
const inchShop = JSON.stringify({
  units: 'inch',
  probe: { overtravel: { lateral: 0.2, axial: 0.12 } },
  machine: { deceleration: 4, reactionTime: 0.01 },
});

testRule(
  'overtravel-exceeded',
  [
    [
      'F in the touch’s block',
      'rs274ngc',
      'G21 G91 G94\nG38.2 X20 F1800 ;! overtravel-exceeded\nG0 X-5\nM2\n',
      shop,
    ],
    [
      'F on a line of its own, for positioning',
      'rs274ngc',
      'G21 G91 G94\nF2000\nG1 X10\nG38.2 Z-20 ;! overtravel-exceeded\nG0 Z5\nM2\n',
      shop,
    ],
    [
      'from an unknown start, the axis alone known',
      'macro',
      'G21 G90 G94\nG31 X20. F3000 ;! overtravel-exceeded\nIF[#5061GT19.9]GOTO9\nG0 X0\nM30\nN9 M30\n',
      shop,
    ],
    [
      'a fast feed on one branch alone',
      'rs274ngc',
      `G21 G91 G94 F100
o1 if [#100 GT 0]
  F2000
o1 endif
G38.2 X20 ;! overtravel-exceeded
G0 X-5
M2
`,
      shop,
    ],
    [
      'in a subroutine, the feed from the caller',
      'rs274ngc',
      `G21 G91 G94
o<down> sub
  G38.2 Z-20 F#1 ;! overtravel-exceeded
  G0 Z5
o<down> endsub
o<down> call [1500]
M2
`,
      shop,
    ],
    [
      'one of two calls is too fast',
      'rs274ngc',
      `G21 G91 G94
o<down> sub
  G38.2 Z-20 F#1 ;! overtravel-exceeded
  G0 Z5
o<down> endsub
o<down> call [200]
o<down> call [1500]
M2
`,
      shop,
    ],
    [
      'inch program, mm profile',
      'rs274ngc',
      'G20 G91 G94\nG38.2 X1 F70 ;! overtravel-exceeded\nG0 X-.2\nM2\n',
      shop,
    ],
    [
      'mm program, inch profile',
      'rs274ngc',
      'G21 G91 G94\nG38.2 X20 F1800 ;! overtravel-exceeded\nG0 X-5\nM2\n',
      inchShop,
    ],
    [
      'in a loop',
      'macro',
      `G21 G91 G94
#1=0
WHILE[#1LT4]DO1
G31 Z-20. F1500. ;! overtravel-exceeded
IF[#1005EQ0]GOTO90
#[500+#1]=#5063+1.
G0 Z5.
#1=#1+1
END1
M30
N90 #3000=1(NO CONTACT)
`,
      shop,
    ],
    ['built-in values alone', 'macro', 'G21 G91 G94\nG31 Z-20. F1500. ;! overtravel-exceeded\nG0 Z5.\nM30\n'],
  ],
  [
    ['slow enough', 'rs274ngc', 'G21 G91 G94\nG38.2 X20 F900\nG0 X-5\nM2\n', shop],
    [
      'fast positioning, slow touch',
      'rs274ngc',
      'G21 G91 G94\nG1 X20 F3000\nG38.2 Z-20 F300\nG0 Z5\nM2\n',
      shop,
    ],
    ['away from the surface', 'rs274ngc', 'G21 G91 G94\nG38.2 Z-20 F300\nG38.4 Z20 F3000\nG0 Z5\nM2\n', shop],
    [
      'the caller’s feed is not in the file',
      'rs274ngc',
      'o<down> sub\n  G21 G91 G94\n  G38.2 Z-20 F#1\n  G0 Z5\no<down> endsub\n',
      shop,
    ],
    ['a feed from a variable', 'macro', 'G21 G91 G94\nG31 Z-20. F#9\nG0 Z5.\nM30\n', shop],
    ['lateral where axial would be too far', 'macro', 'G21 G91 G94\nG31 X20. F1100.\nG0 X-5.\nM30\n', shop],
    [
      'a part that the text does not say',
      'rs274ngc',
      'G21 G90 G94\nG38.2 X#1 Y#2 F1800\nG53 G0 X0 Y0\nM2\n',
      shop,
    ],
  ],
);

describe('overtravel-exceeded', () => {
  const severity = (program: string, profile: string) =>
    checkText(program, { dialect: 'rs274ngc', profile }).findings.map((finding) => finding.severity);
  const fast = 'G21 G91 G94\nG38.2 X20 F1800\nG0 X-5\nM2\n';

  it('states the numbers, in the program’s units', () => {
    const { findings } = checkText(fast, { dialect: 'rs274ngc', profile: shop });
    // v²/2a + v·t = 30²/200 + 30·0.01 mm (elementary kinematics).
    expect(findings[0]?.message).toContain('1800 mm/min');
    expect(findings[0]?.message).toContain('stops 4.8 mm after the trip');
    expect(findings[0]?.message).toContain('no more than 2.5 mm');
  });

  it('is an error where the profile states what it rests on', () => {
    expect(severity(fast, shop)).toEqual(['error']);
  });

  it('is no more than information where it rests on built-in values', () => {
    expect(severity(fast, '{}')).toEqual(['info']);
    expect(severity(fast, '{"probe":{"overtravel":{"lateral":5}}}')).toEqual(['info']);
    expect(severity(fast, '{"machine":{"deceleration":100,"reactionTime":0.01}}')).toEqual(['info']);
    expect(severity(fast, '{"rules":{"overtravel-exceeded":"error"}}')).toEqual(['info']);
  });

  it('is an error where the stated part alone is over', () => {
    expect(severity(fast, '{"probe":{"overtravel":{"lateral":5}},"machine":{"deceleration":100}}')).toEqual([
      'error',
    ]);
  });
});
