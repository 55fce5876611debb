import type { Touch } from '../analysis/model.ts';
import type { Profile } from '../profile/profile.ts';
import { lengthText, readerUnit, type Unit } from './quantity.ts';
import type { Rule } from './rule.ts';
import { callsOf, faultsByBlock } from './touchFaults.ts';

/** Longer than any axis of a small mill. */
const longestMm = 1000;
const leastBoundMm = 50;
const placements = 20;

export const searchUnbounded: Rule = {
  id: 'search-unbounded',
  severity: 'warning',
  title: 'a touch whose travel has no sensible end',
  what: 'A touch may travel further than the axis of the profile’s `machine.travel`, or than twenty times the stated `placementUncertainty` (at least 50 mm); where neither is stated, further than a metre. A guarded move, whose result nothing uses, is travel and may be long.',
  why: 'A touch that finds nothing goes on to its end. With no sensible end that is the end of the axis, or the table, a clamp or the spindle nose on the way there.',
  instead:
    'End the search a little behind where the surface must be, so that a missing part stops the program early.',
  source: 'common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
G0 X0 Y0
G91 G38.2 Z-9999 F100
G0 Z5
M2
`,
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
G0 X0 Y0
G91 G38.2 Z-30 F100
G0 Z5
M2
`,
    },
  ],
  *check(context) {
    const { analysis, profile } = context;
    const long = analysis.touches.filter((touch) => boundOf(touch, profile) !== null);
    for (const fault of faultsByBlock(long)) {
      const { touch } = fault;
      const unit = readerUnit(touch.modes, profile);
      yield {
        message: `This touch may travel ${lengthText(touch.travel ?? 0, unit)}, ${boundOf(touch, profile)?.(unit)}: where nothing trips the probe it goes on to the end of the axis.`,
        place: touch.place,
        related: callsOf(fault, analysis.source),
      };
    }
  },
};

/** What the travel goes beyond, in words; null where it goes beyond nothing. */
function boundOf(touch: Touch, profile: Profile): ((unit: Unit) => string) | null {
  const { travel, axis, away, alarms, reaches } = touch;
  const isGuardedTravel = !alarms && reaches.length === 0;
  if (travel === null || away || isGuardedTravel) return null;
  const { machine, placementUncertainty } = profile;
  const axisTravel = axis === null ? undefined : machine.travel?.[axis];
  if (axisTravel !== undefined && travel > axisTravel)
    return (unit) => `more than the ${lengthText(axisTravel, unit)} of the ${axis?.toUpperCase()} axis`;
  if (placementUncertainty !== null) {
    const bound = Math.max(leastBoundMm, placements * placementUncertainty);
    return travel > bound
      ? (unit) =>
          `more than the ${lengthText(bound, unit)} that the part may stand off its place, with all margin`
      : null;
  }
  return axisTravel === undefined && travel > longestMm ? () => 'more than a metre' : null;
}
