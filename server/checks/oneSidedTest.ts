import type { PositionTest } from '../analysis/model.ts';
import { parameterUses } from '../analysis/parameterUses.ts';
import type { Source } from '../syntax/source.ts';
import { saysDirection } from './directionParameter.ts';
import type { CheckContext, Report, Rule } from './rule.ts';

export const oneSidedTest: Rule = {
  id: 'one-sided-test',
  severity: 'warning',
  title: 'a contact test that works for one direction of the approach only',
  what: 'After a touch or a guarded move the program compares where it stopped with one side of its target (GT, GE, LT or LE), and the move can go either way: its sign comes from a parameter that the program sets to both signs, turns round or multiplies several lengths with, or its calls hand in both. Quiet where a second test, a distance (ABS), a factor of the sign in the comparison or a test of the sign itself takes care of the other way.',
  why: 'Towards +X a stop short of the target is a smaller coordinate, towards −X a greater one. A test for one of them sees nothing in the other direction: the collision passes for a free way, or the miss for a touch, and the program goes on.',
  instead: 'Compare the distance: `ABS[#5061 - #<target>] GT 0.1`, or multiply both sides by the sign.',
  source: 'common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
o<travel> sub
  #<start> = #<_x>
  #<target> = [#<start> + #1 * 25]
  G38.3 X#<target> F400
  o1 if [#5061 LT [#<target> - 0.1]]
    G0 X#<start>
    (ABORT, something is in the way)
  o1 endif
o<travel> endsub
G0 X0 Y0 Z5
o<travel> call [1]
G0 X0 Y20
o<travel> call [-1]
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G90 G94
#10=1
IF[#500EQ0]GOTO5
#10=-1
N5 #12=#5041
#11=#12+#10*25.
G31 X#11 F400.
IF[#5061LT[#11-0.1]]GOTO90
M30
N90 G0 X#12
#3000=1(SOMETHING IS IN THE WAY)
`,
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
o<travel> sub
  #<start> = #<_x>
  #<target> = [#<start> + #1 * 25]
  G38.3 X#<target> F400
  o1 if [ABS[#5061 - #<target>] GT 0.1]
    G0 X#<start>
    (ABORT, something is in the way)
  o1 endif
o<travel> endsub
G0 X0 Y0 Z5
o<travel> call [1]
G0 X0 Y20
o<travel> call [-1]
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G90 G94
#10=1
IF[#500EQ0]GOTO5
#10=-1
N5 #12=#5041
#11=#12+#10*25.
G31 X#11 F400.
IF[[#5061*#10]LT[#11*#10-0.1]]GOTO90
M30
N90 G0 X#12
#3000=1(SOMETHING IS IN THE WAY)
`,
    },
  ],
  *check(context) {
    for (const tests of byBlock(context.analysis.positionTests)) {
      const report = reportOf(tests, context);
      if (report) yield report;
    }
  },
};

/** The tests of each touching block, however many chains of calls lead to it. */
function byBlock(tests: readonly PositionTest[]): Iterable<PositionTest[]> {
  const groups = new Map<string, PositionTest[]>();
  for (const test of tests) {
    const { file, line, place } = test.touch;
    const key = `${file ?? ''}:${line}:${place.start}`;
    const group = groups.get(key);
    if (group) group.push(test);
    else groups.set(key, [test]);
  }
  return groups.values();
}

function reportOf(tests: readonly PositionTest[], { analysis }: CheckContext): Report | null {
  const [first] = tests;
  if (!first || !tests.every((test) => isBoundNearEnd(test) && test.tells === first.tells)) return null;
  const signs = new Set(tests.map(({ towards }) => towards));
  const eitherWay = signs.has(1) && signs.has(-1);
  if (!eitherWay && !tests.some((test) => test.towards === null && canTurn(test, analysis.source)))
    return null;
  const { axis, tells, touch, place } = first;
  const name = axis.toUpperCase();
  const [seen, unseen] = tells === 1 ? ['+', '−'] : ['−', '+'];
  return {
    message: `This test sees a stop short of the target on the way to ${name}${seen} alone, and the move can go to ${name}${unseen} too: there it holds the same with and without contact, and the program goes on as if nothing had happened.`,
    place,
    related: touch.file === null ? [{ message: 'the move that it tests', place: touch.place }] : [],
  };
}

/** A bound in the nearer half of a motion whose length is known is no range that results are checked against. */
function isBoundNearEnd({ form, margin, touch }: PositionTest): boolean {
  if (form !== 'side' || margin === null) return false;
  return touch.travel === null || Math.abs(margin) < touch.travel / 2;
}

/** A test of the sign itself may part the two ways. */
function canTurn({ restsOn }: PositionTest, source: Source): boolean {
  const reads = parameterUses(source).flatMap((uses) => uses.reads);
  const isTested = (name: string) => reads.some((read) => read.how === 'test' && read.name === name);
  return restsOn.some((name) => saysDirection(name, source) && !isTested(name));
}
