import type { FailedUse, Touch } from '../analysis/model.ts';
import type { Place } from '../syntax/place.ts';
import { lineName } from './blockFacts.ts';
import { lengthText, readerUnit } from './quantity.ts';
import type { CheckContext, Report, Rule } from './rule.ts';
import { successTestFix } from './successTestFix.ts';
import { callAt } from './touchFaults.ts';

export const failureBranchContinues: Rule = {
  id: 'failure-branch-continues',
  severity: 'warning',
  title: 'where the touch failed, the program goes on as if it had not',
  what: 'A touch that raises no alarm by itself is tested, but the side of the test on which nothing was touched goes on to a datum, an output or a move that uses its result; or both sides of a test of a status input do. An alarm, M0, M1, M2, M30, a stop with a message (#3006), another attempt, and a flag that a later test looks at are answers to a failure. So is another value put in place of the result. On the failing side itself a message that prints the position, and the way back from it, are left alone.',
  why: 'The test sees the failure and changes nothing: the end of the search is taken for the surface, and the datum is wrong by the whole rest of the travel.',
  instead:
    'Stop on the failing side, try again a counted number of times, or hand a flag to the caller that it tests before it uses the result.',
  source: 'common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
G0 X0 Y0 Z5
G38.3 Z-10 F40
G0 Z5
o1 if [#5070 EQ 0]
  (MSG, no contact)
o1 endif
G10 L2 P1 Z[#5223 + #5063]
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G90 G94
G0 Z5.
G31 Z-10. F40.
G0 Z5.
IF[ABS[#5063+10.]GT0.05]GOTO20
#500=1 (remembered, and never looked at)
N20 #5223=#5223+#5063
M30
`,
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
G0 X0 Y0 Z5
G38.3 Z-10 F40
G0 Z5
o1 if [#5070 EQ 0]
  (MSG, no contact)
  M2
o1 endif
G10 L2 P1 Z[#5223 + #5063]
M2
`,
    },
  ],
  *check(context) {
    const groups = new Map<string, FailedUse[]>();
    const { failedUses, elsewhere } = context.analysis;
    for (const use of [...failedUses, ...elsewhere.failedUses]) {
      const key = `${use.test.line}:${use.test.start}`;
      groups.set(key, [...(groups.get(key) ?? []), use]);
    }
    for (const uses of groups.values()) yield* report(uses, context);
  },
};

function* report(uses: readonly FailedUse[], context: CheckContext): Iterable<Report> {
  const inOrder = [...uses].sort((a, b) => a.place.line - b.place.line);
  const [first] = inOrder;
  if (!first) return;
  const { touch, test } = first;
  const isOne = inOrder.every((use) => use.touch.line === touch.line && use.touch.file === null);
  const fix = isOne ? successTestFix(touch, context) : null;
  const places = new Map(inOrder.map(({ place }) => [place.line, place]));
  const touches = new Map(inOrder.map((use) => [shownPlace(use.touch, context).line, use.touch]));
  const where = touch.file === null ? '' : ' of the called file';
  yield {
    message: `Where ${touch.code} of ${lineName(touch.line)}${where} touched nothing, this test lets the program go on: ${lineName(first.place.line)} then ${verbs[first.how]} ${endOf(touch, context)} as if it were the surface.`,
    place: test,
    related: [
      ...[...touches.values()].map((each) => ({
        message:
          each.file === null ? 'the touch that may have failed' : 'the call of a touch that may have failed',
        place: shownPlace(each, context),
      })),
      ...[...places.values()].map((place) => ({ message: 'used here all the same', place })),
    ],
    fixes: fix ? [fix] : [],
  };
}

/** Of a touch in a called file: the call that leads to it. */
function shownPlace({ file, place, calls }: Touch, { analysis }: CheckContext): Place {
  const call = calls.at(-1);
  return file === null || call === undefined ? place : callAt(analysis, call);
}

const verbs: Readonly<Record<FailedUse['how'], string>> = {
  arithmetic: 'computes with',
  motion: 'moves by',
  offset: 'writes into an offset',
  output: 'prints',
  return: 'returns',
};

function endOf(touch: Touch, { profile }: CheckContext): string {
  const { travel } = touch;
  if (travel === null) return 'the end of its travel';
  return `the end of its travel, ${lengthText(travel, readerUnit(touch.modes, profile))} from its start,`;
}
