import { testRule } from './rulePrograms.ts';

const rule = ';! machine-coordinates-without-motion';

testRule(
  'machine-coordinates-without-motion',
  [
    ['alone', 'rs274ngc', `G21 G90 G94\nG53 ${rule}\nG0 X5\nM2\n`],
    ['with the rapid, no axis', 'rs274ngc', `G21 G90 G94\nG53 G0 ${rule}\nX5\nM2\n`],
    ['an arc in force', 'rs274ngc', `G17 G21 G90 G94\nG1 X0 F100\nG2 X5 Y5 R5\nG53 Z0 ${rule}\nM2\n`],
    [
      'after a cycle’s end, in a subroutine',
      'rs274ngc',
      `o<up> sub\n  G80\n  G53 Z0 ${rule}\no<up> endsub\nG21 G90 G94\no<up> call\nM2\n`,
    ],
    [
      'a touch code in force, on a branch',
      'rs274ngc',
      `G21 G90 G94\no1 if [#<_top> GT 0]\n  G38.2 Z-5 F40\n  G53 Z0 ${rule}\no1 endif\nM2\n`,
    ],
    ['incremental, set earlier', 'macro', `G21 G91 G94\nG0 X5.\nG53 G0 Z0. ${rule}\nM30\n`],
    ['incremental in the same block', 'macro', `G21 G90 G94\nG91 G53 G0 Z0. ${rule}\nM30\n`],
    [
      'alone, in a loop of a subprogram',
      'macro',
      `O1\nG21 G90 G94\nM98 P2\nM30\nO2\nWHILE[#101LT3]DO1\nG53 ${rule}\n#101=#101+1\nEND1\nM99\n`,
    ],
  ],
  [
    ['with its motion', 'rs274ngc', 'G21 G90 G94\nG53 G0 Z0\nG0\nG53 X0 Y0\nG1 F100\nG53 X5\nM2\n'],
    ['under G91', 'rs274ngc', 'G21 G91 G94\nG53 G0 Z0\nM2\n'],
    ['the motion in force is not known', 'rs274ngc', 'G21 G90 G94\nG53 Z0\nM2\n'],
    [
      'behind a call, which may leave anything',
      'rs274ngc',
      'o<up> sub\n  G0 Z5\no<up> endsub\nG17 G21 G90 G94\nG1 X0 F100\nG2 X5 Y5 R5\no<up> call\nG53 Z0\nM2\n',
    ],
    ['absolute in the same block', 'macro', 'G21 G91 G94\nG90 G53 G0 Z0.\nM30\n'],
    [
      'behind a label, where either may hold',
      'macro',
      'G21 G90 G94\nIF[#101EQ1]GOTO5\nG91\nN5 G53 G0 Z0.\nM30\n',
    ],
    ['by way of a saved mode', 'macro', 'G21 G94\n#10=#4003\nG91 G0 X5.\nG#10\nG53 G0 Z0.\nM30\n'],
    ['a variable motion', 'macro', 'G21 G90 G94\nG2 X5. Y5. R5. F100.\nG#120 G53 Z0.\nM30\n'],
  ],
);
