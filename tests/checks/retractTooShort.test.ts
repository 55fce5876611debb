import { describe, expect, it } from 'vitest';
import { checkText } from './marked.ts';
import { testRule } from './rulePrograms.ts';

const shop = '{ "probe": { "release": 0.5 }, "machine": { "afterTrip": "stops-past" } }';
const returning = '{ "probe": { "release": 0.2 }, "machine": { "afterTrip": "returns-to-trip" } }';
const mark = ';! retract-too-short';
const start = 'G21 G90 G94\nG0 X0 Y0\nG91\n';

testRule(
  'retract-too-short',
  [
    [
      'before a second touch',
      'rs274ngc',
      `${start}G38.2 X20 F40 ${mark}\nG0 X-0.3\nG38.2 X1 F40\nG0 X-5\nM2\n`,
      shop,
    ],
    ['before a move along', 'rs274ngc', `${start}G38.2 X20 F40 ${mark}\nG0 X-0.3\nG0 Y10\nM2\n`, shop],
    [
      'in a called sub',
      'rs274ngc',
      `o<edge> sub\n  G38.2 X20 F40 ${mark}\n  G0 X-0.3\n  G38.2 X1 F40\n  G0 X-5\no<edge> endsub\n${start}o<edge> call\nM2\n`,
      shop,
    ],
    [
      'in a loop',
      'rs274ngc',
      `${start}#<n> = 0\no1 while [#<n> LT 3]\n  #<n> = [#<n> + 1]\n  G38.2 Z-20 F40 ${mark}\n  G0 Z0.3\n  G38.2 Z-1 F40\n  G0 Z5\no1 endwhile\nM2\n`,
      shop,
    ],
    [
      'at a fast feed that stops late',
      'rs274ngc',
      `${start}G38.2 X20 F400 ${mark}\nG0 X-0.55\nG38.2 X2 F40\nG0 X-5\nM2\n`,
      shop,
    ],
    [
      'in a branch',
      'rs274ngc',
      `${start}o1 if [#<_on> EQ 1]\n  G38.2 Y20 F40 ${mark}\n  G0 Y-0.3\n  G38.2 Y1 F40\n  G0 Y-5\no1 endif\nM2\n`,
      shop,
    ],
    [
      'of a skip move',
      'macro',
      `G21 G91 G94
G31 Z-15. F40. ;! retract-too-short
G0 Z.3
G31 Z-1. F40.
G0 Z5.
IF[#1005EQ0]GOTO9
#5223=#5223+#5063
G90
M30
N9 G90
#3000=1(NO CONTACT)
`,
      '{ "probe": { "release": 0.5 }, "machine": { "afterTrip": "stops-past" } }',
    ],
    [
      'in a subprogram, before a move along',
      'macro',
      `O1
G21 G90 G94
G0 X0. Y0.
M98 P2
M30
O2
G91
G31 X15. F40. ;! retract-too-short
IF[#1005EQ0]GOTO9
#500=#5061+1.
G0 X-.3
G0 Y10.
G0 X-20.
G90
M99
N9 G90
#3000=1(NO CONTACT)
`,
      '{ "probe": { "release": 0.5 }, "machine": { "afterTrip": "stops-past" } }',
    ],
    [
      'in a loop',
      'macro',
      `G21 G91 G94
#100=0
WHILE[#100LT3]DO1
G31 Z-15. F40. ;! retract-too-short
G0 Z.3
G31 Z-1. F40.
IF[#1005EQ0]GOTO9
G0 Z15.
#100=#100+1
END1
G90
M30
N9 G90
#3000=1(NO CONTACT)
`,
      '{ "probe": { "release": 0.5 }, "machine": { "afterTrip": "stops-past" } }',
    ],
  ],
  [
    ['long enough', 'rs274ngc', `${start}G38.2 X20 F40\nG0 X-2\nG38.2 X3 F40\nG0 X-5\nM2\n`, shop],
    ['in two moves', 'rs274ngc', `${start}G38.2 X20 F40\nG1 X-0.3 F100\nG0 X-5\nM2\n`, shop],
    [
      'back to the trip',
      'rs274ngc',
      `${start}G38.2 X20 F40\nG0 X-0.3\nG38.2 X1 F40\nG0 X-5\nM2\n`,
      returning,
    ],
    ['by an input', 'rs274ngc', `${start}G38.2 X20 F40\nG0 X-#<_off>\nG38.2 X3 F40\nG0 X-5\nM2\n`, shop],
    ['to the start', 'rs274ngc', 'G21 G90 G94\nG0 X0 Y0\nG38.2 X20 F40\nG0 X0\nM2\n', shop],
    ['in machine coordinates', 'rs274ngc', 'G21 G90 G94\nG0 X0 Y0\nG38.2 Z-20 F40\nG53 G0 Z0\nM2\n', shop],
    [
      'a long one of a skip move',
      'macro',
      'G21 G90 G94\nG0 Z5.\nG91\nG31 Z-15. F40.\nG0 Z3.\nG31 Z-4. F40.\nG0 Z5.\nIF[#1005EQ0]GOTO9\n#5223=#5223+#5063\nM30\nN9 #3000=1(NO CONTACT)\n',
      shop,
    ],
    [
      'back to where it began',
      'macro',
      `G21 G90 G94
G0 X0. Y0.
G31 X20. F40.
G0 X0.
IF[#1005EQ0]GOTO9
#500=#5061+1.
M30
N9 #3000=1(NO CONTACT)
`,
      '{ "probe": { "release": 0.5 }, "machine": { "afterTrip": "stops-past" } }',
    ],
    [
      'by a variable',
      'macro',
      `G21 G91 G94
G31 X20. F40.
G0 X-#510
G31 X3. F40.
G0 X-5.
IF[#1005EQ0]GOTO9
#500=#5061+1.
G90
M30
N9 G90
#3000=1(NO CONTACT)
`,
      '{ "probe": { "release": 0.5 }, "machine": { "afterTrip": "stops-past" } }',
    ],
  ],
);

describe('retract-too-short', () => {
  const severity = (feed: number, profile: string) =>
    checkText(`${start}G38.2 X20 F${feed}\nG0 X-0.3\nG38.2 X1 F40\nG0 X-5\nM2\n`, {
      dialect: 'rs274ngc',
      profile,
    }).findings.map((finding) => finding.severity);

  it('is information only where it takes built-in values to say so', () => {
    expect(severity(40, '{ "probe": { "release": 0.5 } }')).toEqual(['warning']);
    expect(severity(600, '{ "probe": { "release": 0.1 } }')).toEqual(['info']);
    expect(severity(600, '{}')).toEqual(['info']);
    expect(severity(600, '{ "machine": { "deceleration": 100 } }')).toEqual(['warning']);
    expect(severity(600, '{ "rules": { "retract-too-short": "error" } }')).toEqual(['info']);
  });
});
