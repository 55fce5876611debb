import { testRule } from './rulePrograms.ts';

const loose = '{ "placementUncertainty": 5 }';
const mark = ';! search-too-short';
const start = 'G21 G90 G94\nG0 X0 Y0\nG91\n';

testRule(
  'search-too-short',
  [
    ['inline', 'rs274ngc', `${start}G38.2 X6 F40 ${mark}\nG0 X-5\nM2\n`, loose],
    ['absolute', 'rs274ngc', `G21 G90 G94\nG0 X0 Y0\nG38.2 Y8 F40 ${mark}\nG0 Y0\nM2\n`, loose],
    [
      'in a called sub, by its argument',
      'rs274ngc',
      `o<edge> sub\n  G38.2 X#1 F40 ${mark}\n  G0 X-5\no<edge> endsub\n${start}o<edge> call [6]\nM2\n`,
      loose,
    ],
    [
      'towards another side',
      'rs274ngc',
      `${start}G38.2 X20 F40\nG0 X-5\nG38.2 Y6 F40 ${mark}\nG0 Y-5\nM2\n`,
      loose,
    ],
    [
      'in a branch',
      'rs274ngc',
      `${start}o1 if [#<_on> EQ 1]\n  G38.2 Z-6 F40 ${mark}\n  G0 Z5\no1 endif\nM2\n`,
      loose,
    ],
    [
      'of a skip move',
      'macro',
      `G21 G90 G94\nG0 Z5.\nG91\nG31 Z-6. F40. ${mark}\nG0 Z5.\nIF[#1005EQ0]GOTO9\n#5223=#5223+#5063\nM30\nN9 #3000=1(NO CONTACT)\n`,
      loose,
    ],
    [
      'in a subprogram, by its argument',
      'macro',
      `O1
G21 G91 G94
G0 X0. Y0.
G65 P2 X6.
G90
M30
O2
G31 X#24 F40. ;! search-too-short
IF[#1005EQ0]GOTO9
#5221=#5221+#5061+1.
G0 X-5.
M99
N9 G90
#3000=1(NO CONTACT)
`,
      loose,
    ],
  ],
  [
    ['long enough', 'rs274ngc', `${start}G38.2 X12 F40\nG0 X-5\nM2\n`, loose],
    [
      'the slow one behind the fast',
      'rs274ngc',
      `${start}G38.2 X20 F100\nG0 X-2\nG38.2 X3 F40\nG0 X-5\nM2\n`,
      loose,
    ],
    ['nothing stated', 'rs274ngc', `${start}G38.2 X6 F40\nG0 X-5\nM2\n`],
    ['the travel is an input', 'rs274ngc', `${start}G38.2 Z-#<_deep> F40\nG0 Z5\nM2\n`, loose],
    ['away from the surface', 'rs274ngc', `${start}G38.2 Z-20 F40\nG38.4 Z3 F40\nG0 Z5\nM2\n`, loose],
    [
      'guarded travel',
      'macro',
      'G21 G90 G94\nG0 X0. Y0. Z50.\nG31 X6. F500.\nIF[ABS[#5061-6.]GT.05]GOTO9\nM30\nN9 G0 X0.\n#3000=1(OBSTACLE)\n',
      loose,
    ],
    [
      'in a loop, long enough',
      'macro',
      `G21 G91 G94
#100=0
WHILE[#100LT3]DO1
G31 Z-12. F40.
IF[#1005EQ0]GOTO9
G0 Z12.
#100=#100+1
END1
G90
M30
N9 G90
#3000=1(NO CONTACT)
`,
      loose,
    ],
  ],
);
