import { describe, expect, it } from 'vitest';
import { checkText } from './marked.ts';
import { testRule } from './rulePrograms.ts';

const up = 'G0 X-15\nG0 Z20\nM2\n';
const start = 'G21 G90 G94\nG0 X-15 Y20\nG0 Z20\n';
const alarm = 'M30\nN9 #3000=1(NO CONTACT)\n';

testRule(
  'unguarded-approach',
  [
    ['rapid down beside the part', 'rs274ngc', `${start}G0 Z-6 ;! unguarded-approach\nG38.2 X5 F40\n${up}`],
    [
      'a feed, the sideways move after it',
      'rs274ngc',
      `G21 G90 G94\nG0 X40 Y20\nG0 Z20\nG1 Z-6 F800 ;! unguarded-approach\nX-15\nG38.2 X5 F40\n${up}`,
    ],
    [
      'below the top that was touched, by an assumed thickness',
      'rs274ngc',
      `G21 G90 G94
G0 X10 Y20
G38.2 Z-10 F40
#<top> = #5063
G0 Z[#<top> + 5]
G0 X-15
G0 Z[#<top> - 6] ;! unguarded-approach
G38.2 X5
G0 X-15
G0 Z[#<top> + 5]
M2
`,
    ],
    [
      'by steps from where the program begins, in a called sub',
      'rs274ngc',
      `o<edge> sub
  G91
  G0 Z-8 ;! unguarded-approach
  G38.2 X20 F40
  G0 X-5
  G0 Z8
  G90
o<edge> endsub
G21 G90 G94
o<edge> call
M2
`,
    ],
    [
      'the first of two at one level, in a loop',
      'rs274ngc',
      `G21 G90 G94
#<n> = 0
o1 while [#<n> LT 3]
  G0 Z20
  G0 Z-6 ;! unguarded-approach
  G38.2 X5 F40
  G0 X-15
  #<n> = [#<n> + 1]
o1 endwhile
G0 Z20
G0 X30
G0 Z-6
G38.2 X15 F40
G0 X30
G0 Z20
M2
`,
    ],
    [
      'an inch program',
      'rs274ngc',
      'G20 G90 G94\nG0 X-.6 Y.8\nG0 Z.8\nG0 Z-.25 ;! unguarded-approach\nG38.2 X.2 F1.6\nG0 X-.6\nG0 Z.8\nM2\n',
    ],
    [
      'two levels',
      'rs274ngc',
      `${start}G0 Z-6 ;! unguarded-approach\nG38.2 X5 F40\nG0 X-15\nG0 Z-12 ;! unguarded-approach\nG38.2 X5\n${up}`,
    ],
    [
      'by steps from where the program begins',
      'macro',
      `G21 G91 G94\nG0 X-15.\nG0 Z-8. ;! unguarded-approach\nG31 X20. F40.\nIF[#1005EQ0]GOTO9\n#500=#5061-15.\nG0 X-5.\nG90\nM30\nN9 G90\n#3000=1(NO CONTACT)\n`,
    ],
    [
      'rapid down beside the part',
      'macro',
      `G21 G90 G94\nG0 X-15. Y20.\nG0 Z20.\nG0 Z-6. ;! unguarded-approach\nG31 X5. F40.\nIF[#1005EQ0]GOTO9\n#500=#5061-15.\nG0 X-15.\nG0 Z20.\n${alarm}`,
    ],
    [
      'on one of two sides',
      'macro',
      `G21 G90 G94
G0 Z20.
IF[#500EQ1]GOTO5
G0 X-15.
G0 Z-6. ;! unguarded-approach
G31 X5. F40.
IF[#1005EQ0]GOTO9
#500=#5061-15.
GOTO6
N5 G0 X40.
G31 Z-6. F300.
IF[#1005EQ1]GOTO9
G31 X20. F40.
IF[#1005EQ0]GOTO9
#500=#5061-15.
N6 G91 G0 Z26.
G90
${alarm}`,
      JSON.stringify({
        rules: {
          'no-retract-after-trip': 'off',
          'guarded-move-untested': 'off',
          'failure-exit-without-retract': 'off',
        },
      }),
    ],
  ],
  [
    [
      'a guarded move down',
      'rs274ngc',
      `${start}G38.3 Z-6 F500\no1 if [#5070 EQ 1]\n  G0 Z20\n  (ABORT, in the way)\no1 endif\nG38.2 X5 F40\n${up}`,
    ],
    ['where it comes from is not known', 'rs274ngc', `G21 G90 G94\nG0 X-15 Y20\nG0 Z-6\nG38.2 X5 F40\n${up}`],
    [
      'down to the start of a touch in Z',
      'rs274ngc',
      'G21 G90 G94\nG0 X10 Y20\nG0 Z50\nG0 Z5\nG38.2 Z-10 F40\nG0 Z50\nM2\n',
    ],
    [
      'retracts, and the way to the middle of a bore',
      'rs274ngc',
      `G21 G91 G94
G38.2 X20 F40
#<a> = #5061
G90 G0 X0
G38.2 X-20
#<b> = #5061
G0 X[[#<a> + #<b>] / 2]
G0 Z20
M2
`,
      JSON.stringify({ rules: { 'unused-parameter': 'off' } }),
    ],
    [
      'above the top that was touched',
      'rs274ngc',
      `G21 G90 G94
G0 X10 Y20
G38.2 Z-10 F40
#<top> = #5063
G0 Z[#<top> + 20]
G0 X-15
G0 Z[#<top> + 2]
G38.2 X5
G0 X-15
G0 Z[#<top> + 20]
M2
`,
    ],
    [
      'a milling cutter goes down, then the probe comes',
      'rs274ngc',
      `G21 G90 G94\nG0 X-15 Y20\nG0 Z20\nG1 Z-6 F300\nG0 Z60\nT9 M6\nG38.2 X5 F40\n${up}`,
    ],
    ['up before the touch', 'rs274ngc', `G21 G90 G94\nG0 X-15 Y20\nG0 Z-20\nG0 Z-6\nG38.2 X5 F40\n${up}`],
    [
      'the depth is an argument',
      'rs274ngc',
      'o<edge> sub\n  G0 Z#1\n  G38.2 X5 F40\n  G0 X-15\no<edge> endsub\n',
      JSON.stringify({ rules: { 'mode-assumed': 'off' } }),
    ],
    [
      'a guarded skip move down',
      'macro',
      `G21 G90 G94\nG0 X-15. Y20.\nG0 Z20.\nG31 Z-6. F500.\nIF[#1005EQ1]GOTO9\nG31 X5. F40.\nIF[#1005EQ0]GOTO9\n#500=#5061-15.\nG0 X-15.\nG0 Z20.\n${alarm}`,
    ],
    [
      'down to the start of a touch in Z',
      'macro',
      `G21 G90 G94\nG0 Z50.\nG0 Z5.\nG31 Z-10. F40.\nIF[ABS[#5063+10.]LT0.05]GOTO9\nG0 Z50.\n${alarm}`,
    ],
    [
      'guarded travel at that level, and nothing measured',
      'rs274ngc',
      `${start}G0 Z5\nG38.3 X50 F800\nG0 Z20\no1 if [#5070 EQ 1]\n  G0 Z20\n  (ABORT, something in the way)\no1 endif\nG0 Y30\nM2\n`,
    ],
    ['no touch at all', 'macro', 'G21 G90 G94\nG0 X-15. Y20.\nG0 Z20.\nG0 Z-6.\nG1 X5. F40.\nG0 Z20.\nM30\n'],
  ],
);

describe('unguarded-approach', () => {
  it('says how far down, and how deep below what was touched', () => {
    const program =
      'G21 G90 G94\nG38.2 Z-10 F40\n#<top> = #5063\nG0 Z[#<top> + 5]\nG0 X-15\nG0 Z[#<top> - 6]\nG38.2 X5\nG0 X-15\nG0 Z50\nM2\n';
    const { findings } = checkText(program, { dialect: 'rs274ngc' });
    const own = findings.find(({ rule }) => rule === 'unguarded-approach');
    expect(own?.message).toContain('11 mm down');
    expect(own?.message).toContain('6 mm below the surface');
    expect(own?.severity).toBe('info');
  });
});
