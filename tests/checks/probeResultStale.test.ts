import { describe, expect, it } from 'vitest';
import { checkText } from './marked.ts';
import { testRule } from './rulePrograms.ts';

const shop = JSON.stringify({
  probe: { tool: 9, calibration: { effectiveDiameter: 3.986, expandedUncertainty: 0.002 } },
});
const start = 'G21 G90 G94 G54\nG0 X-5 Y5 Z-3\n';
const corner = `${start}G38.2 X10 F40\nG0 X-5\nG0 Y-5\nG38.2 Y10\nG0 Y-5\n`;
const skip = 'G21 G90 G94 G54\nG0 X0. Y0. Z5.\nG31 Z-10. F40.\nIF[ABS[#5063+10.]LT0.05]GOTO90\nG0 Z5.\n';
const alarm = 'M30\nN90 #3000=1(NO CONTACT)\n';

testRule(
  'probe-result-stale',
  [
    [
      'the first of two touches, inline',
      'rs274ngc',
      `${corner}G10 L2 P2 X[#5221 + #5061 + 1.993] Y[#5222 + #5062 + 1.993] ;! probe-result-stale\nM2\n`,
      shop,
    ],
    [
      'each edge touched twice',
      'rs274ngc',
      `${start}G38.2 X10 F200
G91 G0 X-2
G38.2 X4 F40
G90 G0 X-5
G0 Y-5
G38.2 Y10 F200
G91 G0 Y-2
G38.2 Y4 F40
G90 G0 Y-5
#<x> = [#5061 + 1.993] ;! probe-result-stale
#<y> = [#5062 + 1.993]
G10 L2 P2 X[#5221 + #<x>] Y[#5222 + #<y>]
M2
`,
      shop,
    ],
    [
      'touches in a called subroutine',
      'rs274ngc',
      `${start}o<edge> sub
  F40
  o1 if [#1 EQ 1]
    G38.2 X10
    G0 X-5
  o1 else
    G38.2 Y10
    G0 Y-5
  o1 endif
o<edge> endsub
o<edge> call [1]
G0 Y-5
o<edge> call [2]
G10 L2 P2 X[#5221 + #5061 + 1.993] Y[#5222 + #5062 + 1.993] ;! probe-result-stale
M2
`,
      shop,
    ],
    [
      'another work offset is selected',
      'rs274ngc',
      `${start}G38.2 X10 F40\nG0 X-5\nG55\nG10 L20 P2 X[#5421 - #5061 - 1.993] ;! probe-result-stale\nM2\n`,
      shop,
    ],
    [
      'the origin is written on one branch',
      'rs274ngc',
      `${start}G0 X20 Y20 Z5
G38.2 Z-10 F40
o1 if [#<_wanted> GT 0]
  G10 L2 P1 Z-30
o1 endif
G1 Z[#5063 + 5] F200 ;! probe-result-stale
M2
`,
    ],
    [
      'G92 before the lift',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0 Z5\nG38.2 Z-10 F40\n#<z> = #5063\nG0 Z5\nG92 Z[5 - #<z>]\nG0 Z[#5063 + 10] ;! probe-result-stale\nG92.1\nM2\n',
    ],
    [
      'another tool length',
      'rs274ngc',
      'G21 G90 G94 G54\nT9 M6 G43 H9\nG0 X0 Y0 Z5\nG38.2 Z-10 F40\nG0 Z5\nT2 M6\nG43 H2\nG10 L20 P1 Z[#5422 - #5063] ;! probe-result-stale\nM2\n',
      shop,
    ],
    [
      'read in inches, latched in millimetres',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0 Z5\nG38.2 Z-10 F40\nG0 Z5\nG20\n#<_top> = #5063 ;! probe-result-stale\nM2\n',
    ],
    [
      'a move after the datum',
      'macro',
      `${skip}#5223=#5223+#5063\nG0 Z[#5063+5.] ;! probe-result-stale\n${alarm}`,
    ],
    [
      'the first of two touches, tested both',
      'macro',
      `G21 G90 G94 G54
G0 X-5. Y5. Z-3.
G31 X10. F40.
IF[ABS[#5061-10.]LT0.05]GOTO90
G0 X-5.
G0 Y-5.
G31 Y10. F40.
IF[ABS[#5062-10.]LT0.05]GOTO90
G0 Y-5.
#5241=#5221+#5061+1.993 ;! probe-result-stale
#5242=#5222+#5062+1.993
${alarm}`,
      shop,
    ],
    [
      'the common offset is written',
      'macro',
      `${skip}#5203=12.5\n#500=#5063-1. ;! probe-result-stale\n${alarm}`,
    ],
    [
      'another work offset, in a called program',
      'macro',
      `O1
G21 G90 G94 G54
G65 P9010
G55
#5243=#5243+#5063 ;! probe-result-stale
M30
O9010
G0 X0. Y0. Z5.
G31 Z-10. F40.
IF[ABS[#5063+10.]LT0.05]GOTO91
G0 Z5.
M99
N91 #3000=2(NO CONTACT)
`,
    ],
  ],
  [
    [
      'each result is copied before the next touch',
      'rs274ngc',
      `${start}G38.2 X10 F40\n#<x> = [#5061 + 1.993]\nG0 X-5\nG0 Y-5\nG38.2 Y10\nG0 Y-5\nG10 L2 P2 X[#5221 + #<x>] Y[#5222 + #5062 + 1.993]\nM2\n`,
      shop,
    ],
    [
      'where a touch stands across its approach: a line at two places',
      'rs274ngc',
      `${start}G38.2 Y10 F40
#<x1> = #5061
#<y1> = #5062
G0 Y0
G0 X30
G38.2 Y10
G0 Y0
#<_angle> = atan[#5062 - #<y1>]/[#5061 - #<x1>]
M2
`,
    ],
    [
      'points are collected',
      'rs274ngc',
      `${start}G0 X20 Y20 Z5
G38.2 Z-10 F40
G0 Z5
G0 X-5 Y5
G0 Z-3 ;! unguarded-approach
G38.2 X10
#<_px> = #5061
#<_py> = #5062
#<_pz> = #5063
G0 X-5
M2
`,
    ],
    [
      'the datum was set where the axis stood',
      'rs274ngc',
      `${start}G38.2 X10 F40\nG10 L20 P2 X-2 ;! datum-from-stop-position\nG0 X-5\nG0 Y-5\nG38.2 Y10\n#<x> = #5061\n#<y> = [#5062 + 1.993]\nG0 Y-5\nG10 L2 P2 Y[#5222 + #<y>]\nG0 X#<x>\nM2\n`,
      JSON.stringify({ rules: { 'offset-write-mismatch': 'off' } }),
    ],
    [
      'the work offset is back before the reading',
      'rs274ngc',
      `${start}G38.2 X10 F40\nG0 X-5\nG55\nG54\nG10 L2 P2 X[#5221 + #5061 + 1.993]\nM2\n`,
      shop,
    ],
    [
      'the old origin is in the sum',
      'rs274ngc',
      `${start}G38.2 X10 F40\nG0 X-5\nG55\nG10 L2 P2 X[#5221 + #5061 + 1.993]\nM2\n`,
      shop,
    ],
    [
      'another offset than the one in force is written',
      'rs274ngc',
      `${start}G0 X20 Y20 Z5\nG38.2 Z-10 F40\nG10 L2 P3 Z0\nG0 Z[#5063 + 5]\nM2\n`,
    ],
    [
      'another axis is written',
      'rs274ngc',
      `${start}G38.2 X10 F40\nG0 X-5\nG10 L2 P1 Y3\nG10 L2 P2 X[#5221 + #5061 + 1.993]\nM2\n`,
      shop,
    ],
    [
      'printed after the datum',
      'rs274ngc',
      'G21 G90 G94 G54\nG0 X0 Y0 Z5\nG38.2 Z-10 F40\nG10 L2 P1 Z[#5223 + #5063]\n(LOG, top at #5063)\nG91 G0 Z5\nG90\nM2\n',
    ],
    [
      'the work offset is known to nobody',
      'rs274ngc',
      'o<top> sub\nG38.2 Z-10 F40\nG10 L20 P0 Z0\n#<_top> = #5063\nG0 Z5\no<top> endsub\n',
      JSON.stringify({ rules: { 'mode-assumed': 'off', 'datum-from-stop-position': 'off' } }),
    ],
    [
      'a computed call comes between',
      'rs274ngc',
      `${start}G38.2 X10 F40\nG0 X-5\no#<_which> call\nG10 L2 P2 X[#5221 + #5061 + 1.993]\nM2\n`,
      shop,
    ],
    [
      'the length of a tool, written into the table after G43',
      'rs274ngc',
      'G21 G90 G94 G54\nG49\nG0 X0 Y0 Z5\nG38.2 Z-10 F40\nG0 Z5\nG43 H2\nG10 L1 P2 Z#5063\nM2\n',
    ],
    ['unit restored before the reading', 'macro', `${skip}G20\nG21\n#5223=#5223+#5063\n${alarm}`],
    [
      'guarded travel along X, then a touch',
      'macro',
      `G21 G90 G94 G54
G0 X-20. Y5. Z-3.
G31 X-5. F500.
IF[ABS[#5061+5.]GT0.05]GOTO90
G31 Y20. F40.
IF[ABS[#5062-20.]LT0.05]GOTO90
#500=#5061
#501=#5062
G0 Y5.
${alarm}`,
      JSON.stringify({ rules: { 'failure-exit-without-retract': 'off' } }),
    ],
    [
      'tested after the datum alone',
      'macro',
      `${skip}#101=#5063\n#5223=#5223+#101\nIF[#5063GT2.]GOTO90\n${alarm}`,
    ],
    [
      'written before the touch, and in a loop',
      'macro',
      `G21 G90 G94 G54
G0 X0. Y0. Z5.
#1=0
WHILE[#1LT3]DO1
G31 Z-10. F40.
IF[ABS[#5063+10.]LT0.05]GOTO90
G0 Z[#5063+5.]
#5223=#5223+#5063
G0 X[#1*10.]
#1=#1+1
END1
${alarm}`,
    ],
  ],
);

describe('probe-result-stale', () => {
  it('says by how much, and where the change stands', () => {
    const program =
      'G21 G90 G94 G54\nG0 X0 Y0 Z5\nG10 L2 P1 Z-20\nG38.2 Z-10 F40\nG10 L2 P1 Z-32.5\nG0 Z[#5063 + 5]\nM2\n';
    const { findings } = checkText(program, { dialect: 'rs274ngc' });
    const own = findings.find(({ rule }) => rule === 'probe-result-stale');
    expect(own?.message).toContain('off by 12.5 mm');
    expect(own?.related.map(({ place }) => place.line)).toEqual([3, 4]);
  });
});
