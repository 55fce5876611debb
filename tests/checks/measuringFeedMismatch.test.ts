import { describe, expect, it } from 'vitest';
import { checkText } from './marked.ts';
import { testRule } from './rulePrograms.ts';

const shop = JSON.stringify({
  probe: { calibration: { effectiveDiameter: 3.986, expandedUncertainty: 0.002, feed: 40 } },
  machine: { tripLatency: 0.001 },
});
const stated = JSON.stringify({ feeds: { measuring: 40 } });

testRule(
  'measuring-feed-mismatch',
  [
    [
      'inline, G10 L2',
      'rs274ngc',
      'G21 G90 G94 G54\nG38.2 Z-10 F20 ;! measuring-feed-mismatch\n#<top> = #5063\nG0 Z5\nG10 L2 P2 Z#<top>\nM2\n',
      shop,
    ],
    [
      'the second touch is slower, not slow enough',
      'rs274ngc',
      'G21 G91 G94 G54\nG38.2 Z-10 F200\nG0 Z2\nG38.2 Z-3 F80 ;! measuring-feed-mismatch\n#<top> = #5063\nG0 Z5\nG10 L2 P2 Z#<top>\nM2\n',
      shop,
    ],
    [
      'the way back is too fast',
      'rs274ngc',
      'G21 G91 G94 G54\nG38.2 Z-10 F200\nG38.4 Z3 F80 ;! measuring-feed-mismatch\n#<top> = #5063\nG0 Z5\nG10 L2 P2 Z#<top>\nM2\n',
      shop,
    ],
    [
      'on one branch',
      'rs274ngc',
      `G21 G90 G94 G54 F40
o1 if [#100 GT 0]
  F30
o1 endif
G38.2 Z-10 ;! measuring-feed-mismatch
#<top> = #5063
G0 Z5
G10 L2 P2 Z#<top>
M2
`,
      shop,
    ],
    [
      'a length of the tool table',
      'rs274ngc',
      'G21 G90 G94 G54\nG38.2 Z-10 F20 ;! measuring-feed-mismatch\n#<top> = #5063\nG0 Z5\nG10 L1 P2 Z#<top>\nM2\n',
      shop,
    ],
    [
      'returned to a caller in the file',
      'rs274ngc',
      `G21 G90 G94 G54
o10 sub
  G38.2 Z-10 F20 ;! measuring-feed-mismatch
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
      'stated measuring feed, no calibration',
      'rs274ngc',
      'G21 G90 G94 G54\nG38.2 Z-10 F20 ;! measuring-feed-mismatch\n#<top> = #5063\nG0 Z5\nG10 L2 P2 Z#<top>\nM2\n',
      stated,
    ],
    [
      'modal feed from the search',
      'rs274ngc',
      `G21 G91 G94
G38.2 Z-10 F200
G0 Z2
G38.2 Z-3 ;! measuring-feed-mismatch
#<top> = #5063
G0 Z5
(LOG, #<top>)
M2
`,
      shop,
    ],
    [
      'in a called subroutine',
      'rs274ngc',
      `G21 G91 G94
o<down> sub
  G38.2 Z-10 F30 ;! measuring-feed-mismatch
  #<z> = #5063
  G0 Z5
o<down> endsub [#<z>]
o<down> call
G10 L2 P1 Z#<_value>
M2
`,
      shop,
    ],
    [
      'inch program',
      'rs274ngc',
      'G20 G90 G94 G54\nG38.2 Z-.4 F1 ;! measuring-feed-mismatch\n#<top> = #5063\nG0 Z.2\nG10 L2 P2 Z#<top>\nM2\n',
      shop,
    ],
    [
      'offset written as a system variable',
      'macro',
      `G21 G90 G94
G0 Z5.
G31 Z-10. F20. ;! measuring-feed-mismatch
IF[ABS[#5063+10.]LT0.05]GOTO9
#5223=#5223+#5063
G0 Z5.
M30
N9 #3000=1(NO CONTACT)
`,
      shop,
    ],
    [
      'one branch is slow',
      'macro',
      `G21 G90 G94
G0 Z5.
IF[#1EQ1]GOTO5
G31 Z-10. F40.
GOTO6
N5 G31 Z-10. F30. ;! measuring-feed-mismatch
N6 IF[ABS[#5063+10.]LT0.05]GOTO9
#5223=#5223+#5063
G0 Z5.
M30
N9 #3000=1(NO CONTACT)
`,
      shop,
    ],
  ],
  [
    [
      'one fast touch alone is the other rule’s',
      'rs274ngc',
      'G21 G90 G94 G54\nG38.2 Z-10 F60 ;! single-fast-touch\n#<top> = #5063\nG0 Z5\nG10 L2 P2 Z#<top>\nM2\n',
      shop,
    ],
    [
      'the feed of the calibration',
      'rs274ngc',
      'G21 G90 G94 G54\nG38.2 Z-10 F40\n#<top> = #5063\nG0 Z5\nG10 L2 P2 Z#<top>\nM2\n',
      shop,
    ],
    [
      'within two percent',
      'rs274ngc',
      'G21 G90 G94 G54\nG38.2 Z-10 F40.8\n#<top> = #5063\nG0 Z5\nG10 L2 P2 Z#<top>\nM2\n',
      shop,
    ],
    [
      'nothing is known of a measuring feed',
      'rs274ngc',
      'G21 G90 G94 G54\nG38.2 Z-10 F100\n#<top> = #5063\nG0 Z5\nG10 L2 P2 Z#<top>\nM2\n',
    ],
    [
      'the fast touch only finds the edge',
      'rs274ngc',
      'G21 G91 G94 G54\nG38.2 Z-10 F200\nG0 Z2\nG38.2 Z-3 F40\n#<top> = #5063\nG0 Z5\nG10 L2 P2 Z#<top>\nM2\n',
      shop,
    ],
    ['nothing uses the result', 'rs274ngc', 'G21 G91 G94\nG38.2 Z-10 F100\nG0 Z5\nM2\n', shop],
    [
      'presence only: the result is not used',
      'macro',
      'G21 G91 G94\nG31 Z-10. F100.\nIF[#1005EQ0]GOTO9\nG0 Z5.\nM30\nN9 #3000=1(PART MISSING)\n',
      shop,
    ],
    [
      'the feed is an argument',
      'macro',
      'G21 G90 G94\nG0 Z5.\nG31 Z-10. F#9\nIF[ABS[#5063+10.]LT0.05]GOTO9\n#5223=#5223+#5063\nG0 Z5.\nM30\nN9 #3000=1(NO CONTACT)\n',
      shop,
    ],
    [
      'inch program at the same feed',
      'rs274ngc',
      'G20 G90 G94 G54\nG38.2 Z-.4 F1.575\n#<top> = #5063\nG0 Z.2\nG10 L2 P2 Z#<top>\nM2\n',
      shop,
    ],
  ],
);

describe('measuring-feed-mismatch', () => {
  it('states the shift: feed difference times latency', () => {
    const program =
      'G21 G90 G94 G54\nG0 X0\nG38.2 X10 F900\nG0 X0\nG38.2 X10 F640\n#<e> = #5061\nG0 X0\nG10 L2 P2 X#<e>\nM2\n';
    const { findings } = checkText(program, { dialect: 'rs274ngc', profile: shop });
    const own = findings.find(({ rule }) => rule === 'measuring-feed-mismatch');
    // (640 − 40)/60 mm/s · 0.001 s = 10 µm (elementary kinematics).
    expect(own?.message).toContain('shifted by 10 µm');
    expect(own?.severity).toBe('warning');
  });
});
