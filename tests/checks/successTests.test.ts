import { describe, expect, it } from 'vitest';
import type { DialectName } from '../../server/syntax/dialect.ts';
import { checkText, told } from './marked.ts';

/** A way to test whether a touch met something; `;?` marks the blocks that are the test. */
type Form = readonly [form: string, dialect: DialectName, program: string];

const begin = 'G21 G90 G94 G54\nG0 X0 Y0\n';
const write = 'G10 L2 P1 X[#5221 + #<edge> + 2]\nM2\n';
const macroWrite = '#5221=#5221+#101+2.\nM30\n';

const forms: readonly Form[] = [
  [
    '#5070 compared',
    'rs274ngc',
    `${begin}G38.3 X20 F40
o1 if [#5070 EQ 0] ;?
  G0 X0 ;?
  (MSG, no contact) ;?
  M2 ;?
o1 endif ;?
#<edge> = #5061
G0 X0
${write}`,
  ],
  [
    '#5070 used as truth, what rests on it within',
    'rs274ngc',
    `${begin}G38.3 X20 F40
#<edge> = #5061
G0 X0
o1 if [#5070] ;?
  G10 L2 P1 X[#5221 + #<edge> + 2]
o1 endif ;?
M2
`,
  ],
  [
    '#5070 compared after the retract, with an alarm',
    'rs274ngc',
    `${begin}G38.3 X20 F40
G0 X0
o1 if [#5070 NE 1] ;?
  (ABORT, no contact) ;?
o1 endif ;?
#<edge> = #5061
${write}`,
  ],
  [
    'a saved copy of #5070',
    'rs274ngc',
    `${begin}G38.3 X20 F40
#<edge> = #5061
#<met> = #5070 ;?
G0 X0
o1 if [#<met> EQ 0] ;?
  (ABORT, no contact) ;?
o1 endif ;?
${write}`,
  ],
  [
    'the latched place compared with the target within a tolerance',
    'rs274ngc',
    `${begin}G38.3 X20 F40
#<edge> = #5061
G0 X0
o1 if [ABS[#<edge> - 20] LT 0.02] ;?
  (ABORT, no contact) ;?
o1 endif ;?
${write}`,
  ],
  [
    'a flag returned and checked by the caller',
    'rs274ngc',
    `o<edge> sub
  G38.3 X20 F40
  #<_edge> = #5061
  G0 X0
o<edge> endsub [#5070]
${begin}o<edge> call
o1 if [#<_value> EQ 0] ;?
  (ABORT, no contact) ;?
o1 endif ;?
#<edge> = #<_edge>
${write}`,
  ],
  [
    'an early return of a failure, checked by the caller',
    'rs274ngc',
    `o<edge> sub
  G38.3 X20 F40
  o1 if [#5070 EQ 0] ;?
    G0 X0 ;?
    o<edge> return [-1] ;?
  o1 endif ;?
  #<_edge> = #5061
  G0 X0
o<edge> endsub [1]
${begin}o<edge> call
o2 if [#<_value> LT 0] ;?
  (ABORT, no contact) ;?
o2 endif ;?
#<edge> = #<_edge>
${write}`,
  ],
  [
    'retries within a bound',
    'rs274ngc',
    `${begin}#<tries> = 0
o1 while [#<tries> LT 3]
  G38.3 X20 F40
  #<edge> = #5061
  G0 X0
  o3 if [#5070 EQ 1] ;?
    o1 break ;?
  o3 endif ;?
  #<tries> = [#<tries> + 1]
o1 endwhile
o2 if [#<tries> EQ 3] ;?
  (ABORT, no contact in three tries) ;?
o2 endif ;?
${write}`,
  ],
  [
    'the end of travel compared, a jump to an alarm',
    'macro',
    `${begin}G31 X20. F40.
IF[#5061GT19.9]GOTO90 ;?
#101=#5061
G0 X0
${macroWrite}N90 G0 X0
#3000=1(NO CONTACT)
`,
  ],
  [
    'the latched place compared with the target within a tolerance, an alarm in the block',
    'macro',
    `${begin}G31 X20. F40.
#101=#5061
G0 X0
IF[ABS[#101-20.]LT0.02]THEN#3000=1(NO CONTACT) ;?
${macroWrite}`,
  ],
  [
    'the status input, after the retract',
    'macro',
    `${begin}G31 X20. F40.
#102=#1005 ;?
#101=#5061
G0 X0
IF[#102EQ0]GOTO90 ;?
${macroWrite}N90 #3000=1(NO CONTACT)
`,
  ],
  [
    'a flag set for the caller, who checks it',
    'macro',
    `O1
${begin}M98 P9001
IF[#100NE0]GOTO90 ;?
${macroWrite}N90 #3000=1(NO CONTACT)
O9001
#100=1
G31 X20. F40.
IF[ABS[#5061-20.]LT0.02]GOTO1 ;?
#101=#5061
#100=0
N1 G0 X0
M99
`,
  ],
  [
    'an early return, checked by the caller',
    'macro',
    `O1
${begin}#101=#0
M98 P9001
IF[#100EQ0]GOTO90 ;?
${macroWrite}N90 #3000=1(NO CONTACT)
O9001
#100=0
G31 X20. F40.
#101=#5061
G0 X0
IF[#101LT19.9]GOTO5 ;?
M99 ;?
N5 #100=1
M99
`,
  ],
  [
    'retries within a bound',
    'macro',
    `${begin}#100=0
WHILE[#100LT3]DO1
G31 X20. F40.
#101=#5061
G0 X0
IF[#101LT19.9]GOTO10 ;?
#100=#100+1
END1
#3000=1(NO CONTACT IN THREE TRIES) ;?
N10
${macroWrite}`,
  ],
];

describe.each(forms)('success tested by %s (%s)', (_, dialect, program) => {
  const right = program.replace(/ ;\?$/gm, '');
  const dropped = program.replace(/^.* ;\?\n/gm, '');

  it('is enough', () => {
    expect(told(checkText(right, { dialect }).findings)).toEqual([]);
  });

  it('is missed where it is dropped', () => {
    expect(dropped).not.toBe(right);
    const rules = checkText(dropped, { dialect }).findings.map(({ rule }) => rule);
    expect(rules).toContain('probe-failure-unhandled');
  });
});
