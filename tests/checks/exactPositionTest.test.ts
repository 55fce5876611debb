import { describe, expect, it } from 'vitest';
import { checkText } from './marked.ts';
import { testRule } from './rulePrograms.ts';

const control = JSON.stringify({ machine: { resolution: 0.001 } });
const search = 'G21 G90 G94\nG0 X0 Y0 Z5\nG38.3 Z-10 F40\nG0 Z5\n';
const datum = 'G10 L2 P1 Z[#5223 + #5063]\nM2\n';
const skip = 'G21 G90 G94\nG0 X0. Y0. Z5.\nG31 Z-10. F40.\nG0 Z5.\n';
const end = '#5223=#5223+#5063\nM30\nN90 #3000=1(NO CONTACT)\n';
const abort = '  (ABORT, no contact)\no1 endif\n';

testRule(
  'exact-position-test',
  [
    [
      'equal to the target',
      'rs274ngc',
      `${search}o1 if [#5063 EQ -10] ;! exact-position-test\n${abort}${datum}`,
    ],
    [
      'unequal, the target in a name',
      'rs274ngc',
      `G21 G90 G94\n#<target> = -10\nG0 X0 Y0 Z5\nG38.3 Z#<target> F40\nG0 Z5\no1 if [#5063 NE #<target>] ;! exact-position-test\n${datum.replace('M2\n', '')}o1 endif\nM2\n`,
    ],
    [
      'a saved copy, in a called sub, the target an argument',
      'rs274ngc',
      `G21 G90 G94
o<down> sub
  G38.3 Z#1 F40
  #<z> = #5063
  G0 Z5
  o1 if [[#<z> - #1] EQ 0] ;! exact-position-test
    (ABORT, no contact)
  o1 endif
o<down> endsub [#<z>]
G0 X0 Y0 Z5
o<down> call [-10]
G10 L2 P1 Z[#5223 + #<_value>]
M2
`,
    ],
    [
      'a tolerance of nothing but rounding',
      'rs274ngc',
      `${search}o1 if [ABS[#5063 + 10] LT 0.001] ;! exact-position-test\n${abort}${datum}`,
      control,
    ],
    [
      'two results compared in a loop',
      'rs274ngc',
      `G21 G90 G94
#<tries> = 0
#<last> = 99
#<z> = 0
o2 do
  #<last> = #<z>
  G0 X0 Y0 Z5
  G38.2 Z-10 F40
  #<z> = #5063
  G0 Z5
  G38.2 Z-10 F40
  #<last> = #5063
  G0 Z5
  #<tries> = [#<tries> + 1]
o2 while [[#<z> NE #<last>] AND [#<tries> LT 4]] ;! exact-position-test
M2
`,
      JSON.stringify({ rules: { 'unused-parameter': 'off' } }),
    ],
    [
      'where the axis came to rest',
      'rs274ngc',
      `G21 G90 G94\nG0 X0 Y0 Z5\nG38.3 X20 F40\no1 if [#<_x> EQ 20] ;! exact-position-test\n${abort}G0 X0\nM2\n`,
    ],
    ['equal to the target', 'macro', `${skip}IF[#5063EQ-10.]GOTO90 ;! exact-position-test\n${end}`],
    ['at or beyond the very end', 'macro', `${skip}IF[#5063LE-10.]GOTO90 ;! exact-position-test\n${end}`],
    [
      'short of the very end, the target an argument',
      'macro',
      `O1
G21 G90 G94
G0 X0. Y0. Z5.
G65 P9010 Z-10.
M30
O9010
G31 Z#26 F40.
IF[#5063GT#26]GOTO5 ;! exact-position-test
#3000=1(NO CONTACT)
N5 #100=#5063
G0 Z5.
M99
`,
    ],
    [
      'a flag made by THEN',
      'macro',
      `${skip}#1=0\nIF[#5063EQ-10.]THEN#1=1 ;! exact-position-test\nIF[#1EQ1]GOTO90\n${end}`,
    ],
    [
      'the block-end position in inches',
      'macro',
      'G20 G90 G94\nG0 X0. Y0. Z.2\nG31 Z-.4 F2.\nIF[ABS[#5003+.4]LT.00002]GOTO90 ;! exact-position-test\nG0 Z.2\n#5223=#5223+#5063\nM30\nN90 #3000=1(NO CONTACT)\n',
      control,
    ],
  ],
  [
    [
      'a distance under a tolerance',
      'rs274ngc',
      `${search}o1 if [ABS[#5063 + 10] LT 0.05]\n${abort}${datum}`,
      control,
    ],
    [
      'a limit on a mean of two touches',
      'rs274ngc',
      'G21 G90 G94\nG0 X0 Y0\nG38.2 X20 F40\n#<a> = #5061\nG0 X0\nG38.2 X-20\n#<b> = #5061\nG0 X0\no1 if [ABS[[#<a> + #<b>] / 2] GT 0.001]\n  (ABORT, off its place)\no1 endif\nM2\n',
      control,
    ],
    ['success itself', 'rs274ngc', `${search}o1 if [#5070 EQ 0]\n${abort}${datum}`],
    ['a bound before the end', 'rs274ngc', `${search}o1 if [#5063 LT -9.9]\n${abort}${datum}`],
    [
      'a flag for the caller',
      'rs274ngc',
      `G21 G90 G94
o<down> sub
  G38.3 Z-10 F40
  #<ok> = 0
  o1 if [ABS[#5063 + 10] GT 0.1]
    #<ok> = 1
  o1 endif
  G0 Z5
o<down> endsub [#<ok>]
G0 X0 Y0 Z5
o<down> call
o2 if [#<_value> EQ 0]
  (ABORT, no contact)
o2 endif
${datum}`,
    ],
    [
      'positions that no touch gave',
      'rs274ngc',
      'G21 G90 G94\nG0 X0 Y0 Z5\no1 if [#<_x> EQ 0]\n  G0 X5\no1 endif\nG38.2 Z-10 F40\nG0 Z5\nM2\n',
    ],
    [
      'a range of results',
      'rs274ngc',
      `${search}o1 if [ABS[#5063 + 10] LT 0.05]\n${abort}o2 if [#5063 GT 2]\n  (ABORT, too high)\no2 endif\n${datum}`,
    ],
    [
      'counted touches',
      'rs274ngc',
      'G21 G90 G94\n#<n> = 0\no1 while [#<n> NE 3]\n  G0 Z5\n  G38.2 Z-10 F40\n  (LOG, #5063)\n  G0 Z5\n  #<n> = [#<n> + 1]\no1 endwhile\nM2\n',
    ],
    ['a distance under a tolerance', 'macro', `${skip}IF[ABS[#5063+10.]LT0.05]GOTO90\n${end}`, control],
    [
      'whether there is a value at all',
      'macro',
      `${skip}#1=#5063\nIF[#1EQ#0]GOTO90\nIF[ABS[#1+10.]LT0.05]GOTO90\n${end}`,
    ],
    ['a status input', 'macro', `${skip}IF[#1005EQ0]GOTO90\n${end}`],
    [
      'a spread of two results',
      'macro',
      `${skip}IF[ABS[#5063+10.]LT0.05]GOTO90\n#1=#5063\nG31 Z-10. F40.\nG0 Z5.\nIF[ABS[#5063+10.]LT0.05]GOTO90\nIF[ABS[#1-#5063]GT0.005]GOTO90\n${end}`,
      control,
    ],
  ],
);

describe('exact-position-test', () => {
  it('is information where the small tolerance meets the built-in resolution', () => {
    const text = `${search}o1 if [ABS[#5063 + 10] LT 0.0005]\n${abort}${datum}`;
    const severities = [undefined, control].map(
      (profile) =>
        checkText(text, { dialect: 'rs274ngc', profile }).findings.find(
          ({ rule }) => rule === 'exact-position-test',
        )?.severity,
    );
    expect(severities).toEqual(['info', 'warning']);
  });
});
