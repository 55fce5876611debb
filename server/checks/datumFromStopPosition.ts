import type { Datum, Term } from '../analysis/model.ts';
import { stoppingDistance } from '../probe/stoppingDistance.ts';
import { probeOf } from '../profile/probeOf.ts';
import { axisOf } from './compensation.ts';
import { touchesOf } from './compensationMissing.ts';
import { errorText, lengthText, readerUnit } from './quantity.ts';
import type { CheckContext, Report, Rule } from './rule.ts';

export const datumFromStopPosition: Rule = {
  id: 'datum-from-stop-position',
  severity: 'warning',
  title: 'a datum from where the axis stopped, not from where the probe tripped',
  what: 'A datum is set from the position at which the axis came to rest after a touch, in a sum in which the approaches do not cancel. Quiet where the profile says that the control returns to the trip, and where two opposite touches cancel the stopping distance.',
  why: 'After the trip the axis runs on while it slows down. The latched position does not contain that way, the position of the axis does: the datum is off by the stopping distance.',
  instead: 'Compute the datum from the latched coordinates, #5061 and those behind it.',
  source: 'stopping distance v·t + v²/2a: elementary kinematics',
  fails: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94 G54 F40
G0 X0 Y0
G38.2 Z-20
G10 L20 P1 Z0
G0 Z5
M2
`,
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94 G54 F40
G0 X0 Y0
G38.2 Z-20
#<top> = #5063
G0 Z[#<top> + 5]
G10 L20 P1 Z5
M2
`,
    },
  ],
  *check(context) {
    const { profile, analysis } = context;
    if (profile.machine.afterTrip !== 'stops-past') return;
    for (const datum of analysis.datums) {
      const stopped = datum.terms?.filter(({ from }) => from === 'stopped') ?? [];
      if (isUnbalanced(stopped)) yield report(datum, stopped, context);
    }
  },
};

/** A touch that runs along no single axis has no sign to sum: it counts as if nothing cancelled it only when it is alone. */
function isUnbalanced(stopped: readonly Term[]): boolean {
  if (stopped.length === 0) return false;
  if (stopped.some(({ sign }) => sign === null)) return stopped.length === 1;
  return Math.abs(stopped.reduce((sum, { coefficient, sign }) => sum + coefficient * (sign ?? 0), 0)) > 1e-6;
}

function report(datum: Datum, stopped: readonly Term[], { profile }: CheckContext): Report {
  const [first] = stopped;
  const unit = first ? readerUnit(first.touch.modes, profile) : profile.units;
  const probe = probeOf(profile);
  const known = stopped.every(({ touch, sign }) => touch.feed.value !== null && sign !== null);
  const error = stopped.reduce(
    (sum, { coefficient, sign, touch }) =>
      sum + coefficient * (sign ?? 0) * stoppingDistance(probe, (touch.feed.value ?? 0) / 60),
    0,
  );
  const size = Math.abs(error) < 0.1 ? errorText(error, unit) : lengthText(Math.abs(error), unit);
  const builtIn =
    profile.source('machine.deceleration') === 'built-in' ? ' with the built-in deceleration' : '';
  return {
    message: known
      ? `${datum.target} is set from where the axis stopped, ${size} past the trip towards ${error > 0 ? '+' : '−'}${axisOf(datum)}${builtIn}, not from the latched position.`
      : `${datum.target} is set from where the axis stopped, past the trip, not from the latched position.`,
    place: datum.place,
    related: touchesOf(datum),
  };
}
