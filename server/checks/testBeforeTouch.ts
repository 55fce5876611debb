import type { StaleTest, UntestedUse } from '../analysis/model.ts';
import { lineName } from './blockFacts.ts';
import { lengthText, readerUnit } from './quantity.ts';
import type { CheckContext, Finding, Report, Rule } from './rule.ts';
import { successTestFix } from './successTestFix.ts';
import { untestedTouches } from './untestedUses.ts';

export const testBeforeTouch: Rule = {
  id: 'test-before-touch',
  severity: 'error',
  title: 'the success test looks at an older result than that of the touch it should test',
  what: 'The result of a touch that raises no alarm by itself is used, and the only test of success stands before it, or behind it with a value that was kept from before: it sees a rough touch the same way, an earlier pass of a loop, or what the last program left there.',
  why: 'The test passes on the older touch. Where the touch that counts meets nothing, the end of its travel is taken for the surface, and the datum is wrong by the whole rest of the travel.',
  instead: 'Test behind the touch whose result is used, before anything uses it.',
  source: 'common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      program: `G21 G91 G94
G38.3 Z-10 F200
G0 Z2
o1 if [#5070 EQ 0]
  (ABORT, no contact)
o1 endif
G38.3 Z-3 F40
#<top> = #5063
G0 Z5
G90
G10 L2 P1 Z[#5223 + #<top>]
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G90 G94
G0 Z5.
IF[ABS[#5063+10.]LT0.05]GOTO90
G31 Z-10. F40.
G0 Z5.
#5223=#5223+#5063
M30
N90 #3000=1(NO CONTACT)
`,
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program: `G21 G91 G94
G38.2 Z-10 F200
G0 Z2
G38.3 Z-3 F40
#<top> = #5063
G0 Z5
o1 if [#5070 EQ 0]
  (ABORT, no contact)
o1 endif
G90
G10 L2 P1 Z[#5223 + #<top>]
M2
`,
    },
  ],
  *check(context) {
    const byTest = new Map<string, { test: StaleTest; uses: UntestedUse[] }>();
    for (const { uses, staleTest } of untestedTouches(context)) {
      if (!staleTest) continue;
      const key = `${staleTest.place.line}:${staleTest.place.start}`;
      const known = byTest.get(key);
      if (known) known.uses.push(...uses);
      else byTest.set(key, { test: staleTest, uses: [...uses] });
    }
    for (const { test, uses } of byTest.values()) yield* report(test, uses, context);
  },
};

function* report(test: StaleTest, uses: readonly UntestedUse[], context: CheckContext): Iterable<Report> {
  const [first] = uses;
  if (!first) return;
  const { touch, place } = first;
  // What was there before any touch stays a wrong question, wherever else is asked as well.
  const isOne = uses.every((use) => use.touch.line === touch.line) && test.sees !== null;
  const fix = isOne ? successTestFix(touch, context) : null;
  const travel =
    touch.travel === null
      ? 'to its end'
      : `its full ${lengthText(touch.travel, readerUnit(touch.modes, context.profile))}`;
  yield {
    message: `This test sees ${seen(test, touch.line)}, not the touch of ${lineName(touch.line)}: where that one meets nothing, it goes ${travel}, the test passes all the same, and ${lineName(place.line)} takes the end for the surface.`,
    place: test.place,
    related: [
      ...untested(uses),
      ...uses.map((use) => ({ message: 'used here, untested', place: use.place })),
    ],
    fixes: fix ? [fix] : [],
  };
}

function seen({ sees }: StaleTest, touched: number): string {
  if (sees === null) return 'what an earlier program left there';
  if (sees.line === touched) return 'the pass of the loop before';
  return `the touch of ${lineName(sees.line)}`;
}

function untested(uses: readonly UntestedUse[]): Finding['related'] {
  const places = new Map(uses.map(({ touch }) => [touch.line, touch.place]));
  return [...places.values()].map((place) => ({ message: 'nothing tests this touch', place }));
}
