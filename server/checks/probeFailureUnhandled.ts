import type { UntestedUse } from '../analysis/model.ts';
import { lineName } from './blockFacts.ts';
import type { CheckContext, Report, Rule } from './rule.ts';
import { successTestFix } from './successTestFix.ts';
import { callAt } from './touchFaults.ts';
import { untestedBehindCalls, untestedTouches } from './untestedUses.ts';

export const probeFailureUnhandled: Rule = {
  id: 'probe-failure-unhandled',
  severity: 'error',
  title: 'the result of a touch is used, and nothing tested that it touched',
  what: 'G38.3, G38.5 and a skip move raise no alarm where the probe never touches: the program goes on with the end of the travel as its result. On some path this result goes into arithmetic, a motion, an offset, an output or back to the caller, and no test for success stands before. A test of #5070, of the latched position against the target or the travel, of a status input, or of a flag made from one of these counts, wherever it stands before the use; copying the result is no use.',
  why: 'Where the part is missing or stands elsewhere, the end of the search is taken for the surface: a datum that is wrong by the whole rest of the travel, and the tool is sent there.',
  instead:
    'Test for success before the result is used, and stop where it failed; or use the touch that alarms by itself (G38.2, G38.4) where the control has it.',
  source: 'common practice, no source; that G38.2 alarms: NISTIR 6556, 3.5.9.1',
  fails: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
G0 X0 Y0
G38.3 Z-10 F40
#<top> = [#5063 + 0.5]
G0 Z5
G10 L2 P1 Z#<top>
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G90 G94
G0 Z5.
G31 Z-10. F40.
G0 Z5.
#5223=#5223+#5063 (the end of the travel, where nothing was touched)
M30
`,
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
G0 X0 Y0
G38.3 Z-10 F40
G0 Z5
o1 if [#5070 EQ 0]
  (MSG, no contact)
  M2
o1 endif
G10 L2 P1 Z[#5063 + 0.5]
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G90 G94
G0 Z5.
G31 Z-10. F40.
G0 Z5.
IF[ABS[#5063+10.]LT0.05]GOTO9
#5223=#5223+#5063
M30
N9 #3000=1(NO CONTACT)
`,
    },
  ],
  *check(context) {
    for (const { uses, staleTest } of untestedTouches(context)) if (!staleTest) yield* report(uses, context);
    for (const { uses } of untestedBehindCalls(context)) yield* reportAtCall(uses, context);
  },
};

function* report(uses: readonly UntestedUse[], context: CheckContext): Iterable<Report> {
  const [first] = uses;
  if (!first) return;
  const fix = successTestFix(first.touch, context);
  yield {
    message: `Where nothing is touched, ${first.touch.code} goes to its end and the program goes on: ${lineName(first.place.line)} then ${verbs[first.how]} the end of the travel as if it were the surface. Nothing tests for success before.`,
    place: first.touch.place,
    related: uses.map(({ place }) => ({ message: 'used here, untested', place })),
    fixes: fix ? [fix] : [],
  };
}

/** A touch of a called file, which its own file can't tell of: what the program does with its result comes behind the call. */
function* reportAtCall(uses: readonly UntestedUse[], { analysis }: CheckContext): Iterable<Report> {
  const [first] = uses;
  const line = first?.touch.calls.at(-1);
  if (!first || line === undefined) return;
  const { touch } = first;
  yield {
    message: `Where nothing is touched, ${touch.code} in ${lineName(touch.line)} of the called file goes to its end and the program goes on: ${lineName(first.place.line)} then ${verbs[first.how]} the end of the travel as if it were the surface. Nothing tests for success before.`,
    place: callAt(analysis, line),
    related: uses.map(({ place }) => ({ message: 'used here, untested', place })),
  };
}

const verbs: Readonly<Record<UntestedUse['how'], string>> = {
  arithmetic: 'computes with',
  motion: 'moves by',
  offset: 'writes into an offset',
  output: 'prints',
  return: 'returns',
};
