import { describe, expect, it } from 'vitest';
import { checkText } from './marked.ts';
import { testRule } from './rulePrograms.ts';
import { edgeTouched, shopProfile } from './shopProfile.ts';

const returning = JSON.stringify({ machine: { afterTrip: 'returns-to-trip' } });

testRule(
  'datum-from-stop-position',
  [
    [
      'G10 L20 right after it',
      'rs274ngc',
      'G21 G90 G94 G54 F40\nG0 X0 Y0 Z5\nG38.2 Z-20\nG10 L20 P1 Z0 ;! datum-from-stop-position\nG0 Z5\nM2\n',
    ],
    [
      'G92 right after it, with the radius',
      'rs274ngc',
      `${edgeTouched}G92 X-1.985 ;! datum-from-stop-position\nG0 X-5\nG92.1\nM2\n`,
      shopProfile,
    ],
    [
      'after an incremental retract',
      'rs274ngc',
      'G21 G91 G94 G54 F40\nG38.2 Z-20\nG0 Z5\nG10 L20 P1 Z5 ;! datum-from-stop-position\nG90\nM2\n',
    ],
    [
      'the current position as a parameter',
      'rs274ngc',
      'G21 G90 G94 G54 F40\nG0 X0 Y0 Z5\nG38.2 Z-20\n#<top> = #<_z>\nG0 Z5\nG10 L2 P1 Z[#5223 + #<top>] ;! datum-from-stop-position\nM2\n',
    ],
    [
      'in a called sub',
      'rs274ngc',
      'o<top> sub\n  G38.2 Z-20 F40\n  G10 L20 P1 Z0 ;! datum-from-stop-position\n  G0 Z5\no<top> endsub\nG21 G90 G94 G54\nG0 X0 Y0 Z5\no<top> call\nM2\n',
    ],
    [
      'the position where the block ended',
      'macro',
      'G21 G90 G94 G54\nG0 X0. Y0. Z5.\nG31 Z-20. F40.\nIF[#5063LT-19.9]GOTO9\n#101=#5003\nG0 Z5.\n#5223=#5223+#101 ;! datum-from-stop-position\nM30\nN9 #3000=1(NO CONTACT)\n',
    ],
    [
      'by G92, the stop read nowhere',
      'macro',
      `G21 G90 G94 G54
G0 X0. Y0. Z5.
G31 Z-20. F40.
IF[#1005EQ0]GOTO9
G92 Z0 ;! datum-from-stop-position
G0 Z5.
G92.1
M30
N9 #3000=1(NO CONTACT)
`,
    ],
    [
      'in a subprogram that writes the offset it is told',
      'macro',
      `O1
G21 G90 G94 G54
G0 X0. Y0. Z5.
M98 P2
M30
O2
G31 Z-20. F40.
IF[#5063LT-19.9]GOTO9
#5223=#5023 ;! datum-from-stop-position
G0 Z5.
M99
N9 #3000=1(NO CONTACT)
`,
    ],
  ],
  [
    [
      'the latched position',
      'rs274ngc',
      'G21 G90 G94 G54 F40\nG0 X0 Y0 Z5\nG38.2 Z-20\n#<top> = #5063\nG0 Z5\nG10 L2 P1 Z[#5223 + #<top>]\nM2\n',
    ],
    [
      'back to the latched position first',
      'rs274ngc',
      'G21 G90 G94 G54 F40\nG0 X0 Y0 Z5\nG38.2 Z-20\n#<top> = #5063\nG0 Z[#<top> + 5]\nG10 L20 P1 Z5\nM2\n',
    ],
    [
      'the control returns to the trip',
      'rs274ngc',
      'G21 G90 G94 G54 F40\nG0 X0 Y0 Z5\nG38.2 Z-20\nG10 L20 P1 Z0\nG0 Z5\nM2\n',
      returning,
    ],
    [
      'both sides: the middle of a bore from stop positions',
      'rs274ngc',
      `${edgeTouched}#<right> = #<_x>\nG0 X0\nG38.2 X-20 F40\n#<left> = #<_x>\nG0 X[[#<left> + #<right>] / 2]\nG10 L20 P1 X0\nM2\n`,
    ],
    [
      'a datum without a touch',
      'rs274ngc',
      'G21 G90 G94 G54 F40\nG0 X0 Y0 Z5\nG10 L20 P1 X0 Y0\nG38.2 Z-20\nG0 Z5\nM2\n',
    ],
    [
      'the latched position, by system variable',
      'macro',
      'G21 G90 G94 G54\nG0 X0. Y0. Z5.\nG31 Z-20. F40.\nIF[#5063LT-19.9]GOTO9\n#5223=#5223+#5063\nG0 Z5.\nM30\nN9 #3000=1(NO CONTACT)\n',
    ],
    [
      'the middle of two stops, opposite ways',
      'macro',
      `G21 G90 G94 G54
G0 X0. Y0.
G31 X20. F40.
IF[#5061GT19.9]GOTO9
#101=#5021
G0 X0.
G31 X-20. F40.
IF[#5061LT-19.9]GOTO9
#102=#5021
G0 X0.
#5221=[#101+#102]/2.
M30
N9 #3000=1(NO CONTACT)
`,
    ],
    [
      'a loop that touches twice and takes the latch',
      'macro',
      `G21 G90 G94 G54
G0 X0. Y0. Z5.
#100=0
WHILE[#100LT2]DO1
G31 Z-20. F40.
IF[#5063LT-19.9]GOTO9
#101=#5063
G0 Z5.
#100=#100+1
END1
#5223=#5223+#101
M30
N9 #3000=1(NO CONTACT)
`,
    ],
  ],
);

describe('datum-from-stop-position', () => {
  it('states the stopping distance at that feed: v·t + v²/2a', () => {
    const text = 'G21 G90 G94 G54 F600\nG0 X0 Y0 Z5\nG38.2 Z-20\nG10 L20 P1 Z0\nG0 Z5\nM2\n';
    const machine = { deceleration: 200, reactionTime: 0.02 };
    const { findings } = checkText(text, { dialect: 'rs274ngc', profile: JSON.stringify({ machine }) });
    const own = findings.find(({ rule }) => rule === 'datum-from-stop-position');
    // 10 mm/s: 10·0.02 + 100/400 = 0.45 mm, downwards.
    expect(own?.message).toContain('0.45 mm past the trip towards −Z');
  });
});
