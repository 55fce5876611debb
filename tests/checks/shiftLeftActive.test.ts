import { testRule } from './rulePrograms.ts';

const mark = ';! shift-left-active';

testRule(
  'shift-left-active',
  [
    ['at the end', 'macro', `G21 G90 G94\nG52 X40. Y20.\nG1 X5. F300.\nM30 ${mark}\n`],
    ['G92, at the end', 'macro', `G21 G90 G94\nG92 Z5.\nG1 X5. F300.\nM30 ${mark}\n`],
    [
      'on one branch',
      'macro',
      `G21 G90 G94\nIF[#101EQ0]GOTO5\nG52 X40.\nG1 X5. F300.\nIF[#102EQ0]GOTO5\nG52 X0.\nN5 M30 ${mark}\n`,
    ],
    [
      'in a loop',
      'macro',
      `G21 G90 G94\n#101=0\nWHILE[#101LT3]DO1\n#101=#101+1\nG52 X[#101*40.]\nG1 X5. F300.\nEND1\nM30 ${mark}\n`,
    ],
    [
      'by a called subprogram',
      'macro',
      `O1\nG21 G90 G94\nM98 P2\nG1 X5. F300.\nM30 ${mark}\nO2\nG52 X40.\nM99\n`,
    ],
    ['a subprogram alone', 'macro', `O2\nG90\nG52 X40.\nG1 X5. F300.\nM99 ${mark}\n`],
    [
      'a subroutine, seen by its caller',
      'rs274ngc',
      `o<set> sub\n  G92 X0 Y0\no<set> endsub ${mark}\nG21 G90 G94\no<set> call\nG1 X5 F300\nM2\n`,
    ],
    [
      'a subroutine alone, on the failing side',
      'rs274ngc',
      `o<go> sub\n  G92 X0\n  o1 if [#1 GT 0]\n    o<go> return [1] ${mark}\n  o1 endif\n  G92.1\no<go> endsub [0]\n`,
    ],
    ['no M2 at the end', 'rs274ngc', `G21 G90 G94\nG52 X40\nG1 X5 F300 ${mark}\n`],
  ],
  [
    ['M2 undoes it', 'rs274ngc', 'G21 G90 G94\nG92 X0 Y0\nG1 X5 F300\nM2\n'],
    [
      'taken back',
      'rs274ngc',
      'o<go> sub\n  G92 X0\n  G1 X5 F300\n  G92.1\no<go> endsub\nG21 G90 G94\no<go> call\nM2\n',
    ],
    [
      'the caller takes it back',
      'rs274ngc',
      'o<set> sub\n  G92 X0\no<set> endsub\nG21 G90 G94\no<set> call\nG1 X5 F300\nG92.2\nM2\n',
    ],
    [
      'found, not made',
      'rs274ngc',
      'o<go> sub\n  G1 X5 F300\no<go> endsub\nG21 G90 G94\nG92 X0\no<go> call\nG92.1\nM2\n',
    ],
    ['a comment', 'rs274ngc', 'G21 G90 G94\n(G92 X0 is done by hand)\nG1 X5 F300\n'],
    ['taken back with zeros', 'macro', 'G21 G90 G94\nG52 X40. Y20.\nG1 X5. F300.\nG52 X0. Y0.\nM30\n'],
    ['zeros at the start', 'macro', 'G21 G90 G94\nG52 X0. Y0. Z0.\nG1 X5. F300.\nM30\n'],
    [
      'taken back on every branch',
      'macro',
      'G21 G90 G94\nG52 X40.\nIF[#101EQ0]GOTO5\nG1 X5. F300.\nG52 X0.\nGOTO6\nN5 G52 X0.\nN6 M30\n',
    ],
    ['the speed limit of G92', 'macro', 'G21 G90 G94\nG92 S2000\nG1 X5. F300.\nM30\n'],
  ],
);
