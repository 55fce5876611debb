import { describe, expect, it } from 'vitest';
import { checkText } from './marked.ts';
import { testRule } from './rulePrograms.ts';

const shop = JSON.stringify({
  probe: { calibration: { effectiveDiameter: 3.986, expandedUncertainty: 0.002, feed: 40 } },
  machine: { tripLatency: 0.001, latchPeriod: 0.001 },
});
const stated = JSON.stringify({ feeds: { measuring: 40 } });
const alarm = 'M30\nN9 #3000=1(NO CONTACT)\n';

testRule(
  'single-fast-touch',
  [
    [
      'inline, G10 L2',
      'rs274ngc',
      'G21 G90 G94 G54\nG38.2 Z-10 F60 ;! single-fast-touch\n#<top> = #5063\nG0 Z5\nG10 L2 P2 Z#<top>\nM2\n',
      shop,
    ],
    [
      'on one branch',
      'rs274ngc',
      `G21 G90 G94 G54 F40
o1 if [#100 GT 0]
  F75
o1 endif
G38.2 Z-10 ;! single-fast-touch
#<top> = #5063
G0 Z5
G10 L2 P2 Z#<top>
M2
`,
      shop,
    ],
    [
      'returned to a caller in the file',
      'rs274ngc',
      `G21 G90 G94 G54
o10 sub
  G38.2 Z-10 F60 ;! single-fast-touch
  #1 = #5063
  G0 Z5
o10 endsub [#1]
o10 call
#100 = #<_value>
M2
`,
      shop,
    ],
    [
      'two faces, each touched once',
      'rs274ngc',
      `G21 G90 G94 G54
G0 X10 Y0 Z-5
G38.2 X0 F200 ;! single-fast-touch
#<a> = #5061
G0 X10
G0 X50
G38.2 X60 ;! single-fast-touch
#<b> = #5061
G0 X50
G10 L2 P2 X[#5221 + [#<a> + #<b>] / 2]
M2
`,
      shop,
    ],
    [
      'one face at two places',
      'rs274ngc',
      `G21 G90 G94 G54
G0 X-10 Y0 Z-5
G38.2 X0 F200 ;! single-fast-touch
#<a> = #5061
G0 X-10
G0 Y40
G38.2 X0 ;! single-fast-touch
#<b> = #5061
G0 X-10
(LOG, #<a> #<b>)
M2
`,
      shop,
    ],
    [
      'a subroutine that is called twice at one place and once at another',
      'rs274ngc',
      `G21 G90 G94 G54
o<edge> sub
  G38.2 X0 F200 ;! single-fast-touch
  #<x> = #5061
  G0 X-10
o<edge> endsub [#<x>]
G0 X-10 Y0 Z-5
o<edge> call
o<edge> call
#<_a> = #<_value>
G0 Y40
o<edge> call
(LOG, #<_a> #<_value>)
M2
`,
      shop,
    ],
    [
      'stated measuring feed, printed',
      'rs274ngc',
      'G21 G90 G94 G54\nG38.2 Z-10 F120 ;! single-fast-touch\n#<top> = #5063\nG0 Z5\n(PRINT, #<top>)\nM2\n',
      stated,
    ],
    [
      'inch program',
      'rs274ngc',
      'G20 G90 G94 G54\nG38.2 Z-.4 F4 ;! single-fast-touch\n#<top> = #5063\nG0 Z.2\nG10 L2 P2 Z#<top>\nM2\n',
      shop,
    ],
    [
      'offset written as a system variable',
      'macro',
      `G21 G90 G94
G0 Z5.
G31 Z-10. F120. ;! single-fast-touch
IF[ABS[#5063+10.]LT0.05]GOTO9
#5223=#5223+#5063
G0 Z5.
${alarm}`,
      shop,
    ],
    [
      'in a called program',
      'macro',
      `O1
G21 G90 G94
G0 Z5.
G65 P9010 F200.
#5223=#5223+#100
M30
O9010
G31 Z-10. F#9 ;! single-fast-touch
IF[ABS[#5063+10.]LT0.05]GOTO9
#100=#5063
G0 Z5.
M99
N9 #3000=1(NO CONTACT)
`,
      shop,
    ],
    [
      'one branch is fast',
      'macro',
      `G21 G90 G94
G0 Z5.
IF[#1EQ1]GOTO5
G31 Z-10. F40.
GOTO6
N5 G31 Z-10. F80. ;! single-fast-touch
N6 IF[ABS[#5063+10.]LT0.05]GOTO9
#5223=#5223+#5063
G0 Z5.
${alarm}`,
      shop,
    ],
  ],
  [
    [
      'fast, retract, slow',
      'rs274ngc',
      'G21 G91 G94 G54\nG38.2 Z-10 F200\nG0 Z2\nG38.2 Z-3 F40\n#<top> = #5063\nG0 Z5\nG10 L2 P2 Z#<top>\nM2\n',
      shop,
    ],
    [
      'fast in, slowly out: the release is the result',
      'rs274ngc',
      'G21 G91 G94 G54\nG38.2 Z-10 F200\nG38.4 Z3 F40\n#<top> = #5063\nG0 Z5\nG10 L2 P2 Z#<top>\nM2\n',
      shop,
    ],
    [
      'a back-off ladder',
      'rs274ngc',
      `G21 G91 G94 G54
G38.2 X20 F200
G38.4 X-2 F100
G38.2 X2 F80
G38.4 X-2 F40
#<edge> = [#5061 + 1.993]
G0 X-5
G90
G10 L2 P2 X[#5221 + #<edge>]
M2
`,
      shop,
    ],
    [
      'nothing is known of a measuring feed',
      'rs274ngc',
      'G21 G90 G94 G54\nG38.2 Z-10 F200\n#<top> = #5063\nG0 Z5\nG10 L2 P2 Z#<top>\nM2\n',
    ],
    ['nothing uses the result', 'rs274ngc', 'G21 G91 G94\nG38.2 Z-10 F200\nG0 Z5\nM2\n', shop],
    [
      'one touch at the measuring feed',
      'rs274ngc',
      'G21 G90 G94 G54\nG38.2 Z-10 F40\n#<top> = #5063\nG0 Z5\nG10 L2 P2 Z#<top>\nM2\n',
      shop,
    ],
    [
      'a rough location, said so',
      'rs274ngc',
      'G21 G90 G94 G54\n(probewright: allow single-fast-touch - rough location only)\nG38.2 Z-10 F200\n#<top> = #5063\nG0 Z5\nG10 L2 P2 Z#<top>\nM2\n',
      shop,
    ],
    [
      'the slow touch stands in a subroutine',
      'rs274ngc',
      `G21 G91 G94 G54
o<slow> sub
  G0 Z2
  G38.2 Z-3 F40
  #<z> = #5063
  G0 Z5
o<slow> endsub [#<z>]
G38.2 Z-10 F200
o<slow> call
G10 L2 P2 Z[#5223 + #<_value>]
M2
`,
      shop,
    ],
    [
      'presence only',
      'macro',
      'G21 G91 G94\nG31 Z-10. F200.\nIF[#1005EQ0]GOTO9\nG0 Z5.\nM30\nN9 #3000=1(PART MISSING)\n',
      shop,
    ],
    [
      'the feed is an argument that nobody gives',
      'macro',
      `G21 G90 G94\nG0 Z5.\nG31 Z-10. F#9\nIF[ABS[#5063+10.]LT0.05]GOTO9\n#5223=#5223+#5063\nG0 Z5.\n${alarm}`,
      shop,
    ],
    [
      'twice in a loop, the second time slowly',
      'macro',
      `G21 G90 G94
G0 X0. Y0. Z5.
#1=0
#2=200.
WHILE[#1LT2]DO1
G31 Z-10. F#2
IF[ABS[#5063+10.]LT0.05]GOTO9
#3=#5063
G0 Z[#5063+2.]
#2=40.
#1=#1+1
END1
#5223=#5223+#3
G0 Z5.
${alarm}`,
      shop,
    ],
  ],
);

describe('single-fast-touch', () => {
  it('states the shift and the steps: feed times latency and feed times sampling period', () => {
    const program = 'G21 G90 G94 G54\nG0 X0\nG38.2 X10 F640\n#<e> = #5061\nG0 X0\nG10 L2 P2 X#<e>\nM2\n';
    const { findings } = checkText(program, { dialect: 'rs274ngc', profile: shop });
    const own = findings.find(({ rule }) => rule === 'single-fast-touch');
    // (640 − 40)/60 mm/s · 0.001 s = 10 µm; 640/60 mm/s · 0.001 s = 10.7 µm (elementary kinematics).
    expect(own?.message).toContain('shifted by 10 µm');
    expect(own?.message).toContain('steps of 10.7 µm');
    expect(own?.severity).toBe('warning');
  });
});
