import type { AlarmExit } from '../analysis/model.ts';
import { lineName } from './blockFacts.ts';
import { modesLeftByAlarm } from './modesLeftByAlarm.ts';
import { lengthText, readerUnit } from './quantity.ts';
import type { CheckContext, Report, Rule } from './rule.ts';
import { blockKey } from './touchFaults.ts';

export const failureExitWithoutRetract: Rule = {
  id: 'failure-exit-without-retract',
  severity: 'warning',
  title: 'the program stops on its failing side with the tip still against something, or in another mode',
  what: 'A path ends in an alarm (#3000, ABORT) while the tip rests against what the last touch has met: a guarded move that was shown to have stopped short, a touch that alarms by itself where nothing is met, or a touch that a test has shown to have met something. An alarm stops at once, so that the retract must come before it. After a measuring touch that met nothing the tip is free. In the macro family also: the failing side of a touch ends in an alarm in another unit, plane or feed mode than every regular end of the program, or in G91 where those end in G90. The ends by M2 and M30 are the business of no-retract-after-trip.',
  why: 'The operator clears the alarm and the first move, by hand or by program, drags the tip along what it rests on: a bent stylus, or a crash into the clamp. A mode left behind makes the next program take its positions for distances.',
  instead: 'On the failing side go back the way the touch came, put the modes back, then raise the alarm.',
  source: 'common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
G0 X0 Y0 Z5
G38.3 X50 F800
o1 if [#5070 EQ 1]
  (ABORT, something in the way)
o1 endif
G0 Y20
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G90 G94
G0 X0. Z5.
G91
G31 Z-10. F40.
IF[ABS[#5063+5.]LT0.05]GOTO90
G0 Z5.
G90
#5223=#5223+#5063
M30
N90 #3000=1(NO CONTACT, AND STILL IN G91)
`,
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
G0 X0 Y0 Z5
G38.3 X50 F800
o1 if [#5070 EQ 1]
  G0 X0
  (ABORT, something in the way)
o1 endif
G0 Y20
M2
`,
    },
  ],
  *check(context) {
    // Where the flow doesn't fit together, the end that a path comes to is a guess.
    if (context.analysis.flowFaults.length > 0) return;
    yield* againstSomething(context);
    yield* inAnotherMode(context);
  },
};

function* againstSomething({ analysis, profile }: CheckContext): Iterable<Report> {
  const groups = new Map<string, AlarmExit[]>();
  for (const exit of analysis.alarmExits) {
    if (exit.side !== 'against' || exit.touch.away) continue;
    const key = blockKey(exit.touch);
    groups.set(key, [...(groups.get(key) ?? []), exit]);
  }
  for (const [first, ...others] of groups.values()) {
    if (!first) continue;
    const { touch, place, isGuarded } = first;
    const way =
      touch.travel === null
        ? ''
        : `, anywhere on its ${lengthText(touch.travel, readerUnit(touch.modes, profile))}`;
    const met = isGuarded ? `stopped against something${way}` : 'touched';
    yield {
      message: `Where this ${touch.code} has ${met}, the alarm of ${lineName(place.line)} stops the program with the tip still on it: no retract comes before.`,
      place: touch.place,
      related: unique([first, ...others]).map((exit) => ({
        message: 'the alarm, with the tip against what it met',
        place: exit.place,
      })),
    };
  }
}

function unique(exits: readonly AlarmExit[]): AlarmExit[] {
  return [...new Map(exits.map((exit) => [exit.place.line, exit])).values()];
}

/** One report for each alarm, however many touches lead to it. */
function* inAnotherMode({ analysis }: CheckContext): Iterable<Report> {
  // What an abort of the other dialect puts back is not known.
  if (analysis.source.dialect.name !== 'macro') return;
  const told = new Set<number>();
  for (const { touch, place, side, isGuarded, modes } of analysis.alarmExits) {
    if (side === 'against' || side === (isGuarded ? 'failed' : 'met') || told.has(place.line)) continue;
    const changes = modesLeftByAlarm(modes, analysis);
    if (changes.length === 0) continue;
    told.add(place.line);
    const [left, usual] = [changes.map(({ left }) => left), changes.map(({ usual }) => usual)];
    yield {
      message: `Behind the test of the touch of ${lineName(touch.line)} this alarm stops the program in ${left.join(', ')}; every regular end leaves ${usual.join(', ')}. What runs next may take positions for distances, or lengths in another unit.`,
      place,
      related: [{ message: 'the touch whose failing side ends here', place: touch.place }],
    };
  }
}
