import { testRule } from './rulePrograms.ts';

const machine = JSON.stringify({ machine: { travel: { x: 400, y: 300, z: 250 } } });
const placed = JSON.stringify({ placementUncertainty: 2 });

testRule(
  'search-unbounded',
  [
    ['over a metre', 'rs274ngc', 'G21 G91 G94\nG38.2 Z-9999 F100 ;! search-unbounded\nG0 Z5\nM2\n'],
    ['over the axis', 'rs274ngc', 'G21 G91 G94\nG38.2 Z-260 F100 ;! search-unbounded\nG0 Z5\nM2\n', machine],
    [
      'over the placement',
      'rs274ngc',
      'G21 G91 G94\nG38.2 X60 F100 ;! search-unbounded\nG0 X-5\nM2\n',
      placed,
    ],
    [
      'in a called sub, by its argument',
      'rs274ngc',
      'o<down> sub\n  G38.2 Z-#1 F100 ;! search-unbounded\n  G0 Z5\no<down> endsub\nG21 G91 G94\no<down> call [5000]\nM2\n',
    ],
    [
      'absolute, from a known start',
      'rs274ngc',
      'G21 G90 G94\nG0 X0 Y0 Z0\nG38.2 Z-1200 F100 ;! search-unbounded\nG0 Z5\nM2\n',
    ],
    [
      'feet where millimetres were meant',
      'rs274ngc',
      'G20 G91 G94\nG38.2 Z-50 F4 ;! search-unbounded\nG0 Z1\nM2\n',
    ],
    [
      'a measuring skip move',
      'macro',
      'G21 G91 G94\nG31 Z-2000. F100. ;! search-unbounded\nIF[#5063LT-1999.]GOTO9\n#5223=#5223+#5063\nG0 Z5.\nM30\nN9 #3000=1(NO CONTACT)\n',
    ],
    [
      'in a subprogram, over the axis',
      'macro',
      `O1
G21 G91 G94
M98 P2
G90
M30
O2
G31 Z-300. F100. ;! search-unbounded
IF[#1005EQ0]GOTO9
#5223=#5223+#5063-1.
G0 Z5.
M99
N9 G90
#3000=1(NO CONTACT)
`,
      machine,
    ],
    [
      'in inches, over the placement',
      'macro',
      `G20 G91 G94
G31 X4. F5. ;! search-unbounded
IF[#1005EQ0]GOTO9
#5221=#5221+#5061+.1
G0 X-.5
G90
M30
N9 G90
#3000=1(NO CONTACT)
`,
      placed,
    ],
  ],
  [
    ['thirty millimetres', 'rs274ngc', 'G21 G91 G94\nG38.2 Z-30 F100\nG0 Z5\nM2\n'],
    ['within the axis', 'rs274ngc', 'G21 G91 G94\nG38.2 Z-240 F100\nG0 Z5\nM2\n', machine],
    ['within twenty placements', 'rs274ngc', 'G21 G91 G94\nG38.2 X45 F100\nG0 X-5\nM2\n', placed],
    ['the travel is an input', 'rs274ngc', 'G21 G91 G94\nG38.2 Z-#<_search> F100\nG0 Z5\nM2\n', placed],
    ['from an unknown start', 'rs274ngc', 'G21 G90 G94\nG38.2 Z-5000 F100\nG0 Z5\nM2\n', machine],
    [
      'guarded travel',
      'rs274ngc',
      'G21 G90 G94\nG0 X0 Y0 Z50\nG38.3 X300 F500\no1 if [#5070 EQ 1]\n  G0 X0\n  (ABORT, something stands in the way)\no1 endif\nM2\n',
      placed,
    ],
    ['away from the surface', 'rs274ngc', 'G21 G91 G94\nG38.2 Z-30 F100\nG38.4 Z60 F40\nM2\n', placed],
    [
      'guarded travel by a skip move',
      'macro',
      'G21 G90 G94\nG0 X0. Y0. Z50.\nG31 X300. F500.\nIF[ABS[#5061-300.]GT.05]GOTO9\nM30\nN9 G0 X0.\n#3000=1(OBSTACLE)\n',
      placed,
    ],
    [
      'within the axis',
      'macro',
      `G21 G91 G94
G31 Z-200. F100.
IF[#1005EQ0]GOTO9
#5223=#5223+#5063-1.
G0 Z5.
G90
M30
N9 G90
#3000=1(NO CONTACT)
`,
      machine,
    ],
  ],
);
