import { type RuleProgram, testRule } from './rulePrograms.ts';

/** What stands in the way is not the matter here. */
const off = { 'failure-exit-without-retract': 'off' };

function alone(programs: readonly RuleProgram[]): RuleProgram[] {
  return programs.map(([form, dialect, program, beside]) => {
    const own = typeof beside === 'string' ? JSON.parse(beside) : {};
    return [form, dialect, program, JSON.stringify({ rules: { ...own.rules, ...off } })];
  });
}

const travel = `G21 G90 G94
o<travel> sub
  #<target> = [#<_x> + #1 * 25]
  G38.3 X#<target> F400
`;
const calls = 'o<travel> endsub\nG0 X0 Y0 Z5\no<travel> call [1]\nG0 X0 Y20\no<travel> call [-1]\nM2\n';
const abort = '    (ABORT, something is in the way)\n  o1 endif\n';
const sign = 'G21 G90 G94\n#10=1\nIF[#500EQ0]GOTO5\n#10=-1\nN5 #11=#5041+#10*25.\nG31 X#11 F400.\n';
const alarm = 'M30\nN90 #3000=1(SOMETHING IS IN THE WAY)\n';

testRule(
  'one-sided-test',
  alone([
    [
      'both signs handed in by calls',
      'rs274ngc',
      `${travel}  o1 if [#5061 LT [#<target> - 0.1]] ;! one-sided-test\n${abort}${calls}`,
    ],
    [
      'reached by the upper side',
      'rs274ngc',
      `${travel}  o1 if [#5061 GT [#<target> + 0.1]] ;! one-sided-test\n${abort}${calls}`,
    ],
    [
      'the sign is set on two branches',
      'rs274ngc',
      `G21 G90 G94
#<dir> = 1
o1 if [#<_side> EQ 2]
  #<dir> = -1
o1 endif
#<target> = [#<_y> + #<dir> * 30]
G38.3 Y#<target> F400
o2 if [#5062 GT [#<target> + 0.2]] ;! one-sided-test
  (ABORT, something is in the way)
o2 endif
M2
`,
    ],
    [
      'the sign is turned round in a loop',
      'rs274ngc',
      `G21 G90 G94
#<dir> = 1
#<n> = 0
o1 while [#<n> LT 4]
  #<target> = [#<_x> + #<dir> * 30]
  G38.3 X#<target> F400
  o2 if [#5061 LT [#<target> - 0.2]] ;! one-sided-test
    (ABORT, something is in the way)
  o2 endif
  #<dir> = [0 - #<dir>]
  #<n> = [#<n> + 1]
o1 endwhile
M2
`,
    ],
    [
      'an open subroutine: the factor of several lengths',
      'rs274ngc',
      `o<edge> sub
  #<target> = [#<_x> + #1 * 20]
  G91 G94
  G38.3 X[#1 * 20] F60
  G0 X[#1 * -3]
  G90
  o1 if [#5061 GE [#<target> - 0.05]] ;! one-sided-test
    (ABORT, no contact)
  o1 endif
  #<_edge> = #5061
o<edge> endsub
`,
      JSON.stringify({ rules: { 'mode-not-restored': 'off', 'mode-assumed': 'off' } }),
    ],
    [
      'the sign is set on two branches',
      'macro',
      `${sign}IF[#5061LT[#11-0.1]]GOTO90 ;! one-sided-test\n${alarm}`,
    ],
    [
      'a saved copy of where it stopped',
      'macro',
      `${sign}#12=#5061\nG4 P100\nIF[#12LT[#11-0.1]]GOTO90 ;! one-sided-test\n${alarm}`,
    ],
    [
      'both signs handed in by G65',
      'macro',
      `O1
G21 G90 G94
G0 X0. Y0. Z5.
G65 P9010 A1.
G0 X0. Y20.
G65 P9010 A-1.
M30
O9010
#11=#5041+#1*25.
G31 X#11 F400.
IF[#5061LT[#11-0.1]]GOTO90 ;! one-sided-test
M99
N90 #3000=1(SOMETHING IS IN THE WAY)
`,
    ],
  ]),
  alone([
    ['a distance', 'rs274ngc', `${travel}  o1 if [ABS[#5061 - #<target>] GT 0.1]\n${abort}${calls}`],
    [
      'both sides in one condition',
      'rs274ngc',
      `${travel}  o1 if [[#5061 LT [#<target> - 0.1]] OR [#5061 GT [#<target> + 0.1]]]\n${abort}${calls}`,
    ],
    [
      'a second test for the other side',
      'rs274ngc',
      `${travel}  o1 if [#5061 LT [#<target> - 0.1]]\n${abort}  o2 if [#5061 GT [#<target> + 0.1]]\n    (ABORT, something is in the way)\n  o2 endif\n${calls}`,
    ],
    [
      'both sides of the comparison times the sign',
      'rs274ngc',
      `${travel}  o1 if [#5061 * #1 LT [#<target> * #1 - 0.1]]\n${abort}${calls}`,
    ],
    [
      'one direction only',
      'rs274ngc',
      `${travel}  o1 if [#5061 LT [#<target> - 0.1]]\n${abort}${calls.replace('call [-1]', 'call [1]')}`,
    ],
    ['success itself', 'rs274ngc', `${travel}  o1 if [#5070 EQ 1]\n${abort}${calls}`],
    [
      'nobody says that the argument may be negative',
      'rs274ngc',
      'o<down> sub\nG94 G90\nG38.3 X#1 F60\no1 if [#5061 GT [#1 - 0.1]]\n(ABORT, no contact)\no1 endif\n#<_edge> = #5061\nG0 X0\no<down> endsub\n',
      JSON.stringify({ rules: { 'mode-assumed': 'off', 'mode-not-restored': 'off' } }),
    ],
    ['a distance', 'macro', `${sign}IF[ABS[#5061-#11]GT0.1]GOTO90\n${alarm}`],
    [
      'a branch for each sign',
      'macro',
      `${sign}IF[#10LT0]GOTO6\nIF[#5061LT[#11-0.1]]GOTO90\nGOTO7\nN6 IF[#5061GT[#11+0.1]]GOTO90\nN7 G4 P100\n${alarm}`,
    ],
    [
      'both sides of the comparison times the sign',
      'macro',
      `${sign}IF[#5061*#10LT#11*#10-0.1]GOTO90\n${alarm}`,
    ],
    [
      'the test is passed over for the other sign',
      'macro',
      `${sign}IF[#10LT0]GOTO7\nIF[#5061LT[#11-0.1]]GOTO90\nN7 G4 P100\n${alarm}`,
    ],
    ['a status input', 'macro', `${sign}IF[#1005EQ1]GOTO90\n${alarm}`],
    ['the margin times the sign', 'macro', `${sign}IF[[#5061-#11+#10*0.1]*#10LT0]GOTO90\n${alarm}`],
  ]),
);
