import type { Departure } from '../analysis/model.ts';
import { wordsOf } from './blockFacts.ts';
import { lengthText, readerUnit } from './quantity.ts';
import { statedUnseatingDistance, unseatingDistance } from './retractFix.ts';
import type { CheckContext, Report, Rule } from './rule.ts';
import { blockKey } from './touchFaults.ts';

const slowToReseat = '{ "probe": { "release": 0.5 }, "machine": { "afterTrip": "stops-past" } }';

export const retractTooShort: Rule = {
  id: 'retract-too-short',
  severity: 'warning',
  title: 'the retract after a touch is too short to unseat the tip',
  what: 'The move off the surface is shorter than the stopping distance at the feed of the touch (nothing where the control returns to the trip), the pre-travel and the release of the probe together, and the next move is another touch or goes on along the surface. Where it takes built-in values of the profile to say so, it is only information. Where the distance is not known, or the next block moves on along the approach, the rule is quiet.',
  why: 'The tip still rests on the surface, or the probe has not come back to its seat: the next touch raises an alarm or latches where it stands, a sideways move bends the stylus.',
  instead: 'Retract by more than the sum; a millimetre or two costs nothing.',
  source: 'stopping distance: elementary kinematics; the sum: common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      profile: slowToReseat,
      program: `G21 G90 G94
G0 X0 Y0
G91
G38.2 X20 F40
G0 X-0.3
G38.2 X1 F40
G0 X-5
M2
`,
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      profile: slowToReseat,
      program: `G21 G90 G94
G0 X0 Y0
G91
G38.2 X20 F40
G0 X-2
G38.2 X3 F40
G0 X-5
M2
`,
    },
  ],
  *check(context) {
    const told = new Set<string>();
    for (const departure of context.analysis.departures) {
      const key = blockKey(departure.touch);
      const report = told.has(key) ? null : reportOf(departure, context);
      if (!report) continue;
      told.add(key);
      yield report;
    }
  },
};

function reportOf(departure: Departure, context: CheckContext): Report | null {
  const { touch, kind, component, place } = departure;
  const { profile } = context;
  if (kind !== 'retract' || component === null || touch.away) return null;
  const [feed] = touch.feed.byPath.map(({ value }) => value);
  const mmPerMin = touch.feed.value ?? feed ?? 0;
  const least = unseatingDistance(profile, mmPerMin);
  if (-component >= least - 1e-6 || goesOnOut(departure, context)) return null;
  const unit = readerUnit(touch.modes, profile);
  const isStated = -component < statedUnseatingDistance(profile, mmPerMin) - 1e-6;
  const built = isStated ? '' : ' These are built-in values: put your probe and machine into a profile.';
  return {
    message: `The retract after this touch is ${lengthText(-component, unit)}; stopping, pre-travel and release together need ${lengthText(least, unit)}, so the tip may still rest on the surface when the next move starts.${built}`,
    place: touch.place,
    related: [{ message: 'the retract', place }],
    ...(isStated ? {} : { severity: 'info' as const }),
  };
}

/** Blocks looked at for the next motion. */
const mostBlocks = 20;

/** The next motion is no touch and moves along the approach, or nobody can tell from the text. */
function goesOnOut({ touch, place }: Departure, { analysis }: CheckContext): boolean {
  const { source, touches } = analysis;
  if (touch.axis === null) return true;
  const letter = touch.axis.toUpperCase();
  for (let line = place.line + 1; line < Math.min(source.lineCount, place.line + mostBlocks); line++) {
    if (source.classOf(line) === 0) continue;
    if (touches.some((each) => each.line === line && !each.away)) return false;
    const block = source.block(line);
    if (block.items.some(({ kind }) => kind === 'flow')) return true;
    const moved = wordsOf(block).flatMap((word) => (/^[XYZABC]$/.test(word.letter) ? [word.letter] : []));
    if (moved.length > 0) return moved.includes(letter);
  }
  return true;
}
