import type { Datum } from '../analysis/model.ts';
import { effectiveDiameter } from '../probe/effectiveDiameter.ts';
import { probeOf } from '../profile/probeOf.ts';
import {
  type Compensation,
  compensationError,
  compensationOf,
  datumsAsSums,
  errorSentence,
} from './compensation.ts';
import { readerUnit } from './quantity.ts';
import { radiusFix } from './radiusFix.ts';
import { isRoundLength } from './roundLength.ts';
import type { CheckContext, Report, Rule } from './rule.ts';

/** mm */
const halfRadiusWithin = 0.001;

const shop = `{ "probe": { "calibration": { "effectiveDiameter": 3.986, "expandedUncertainty": 0.002, "feed": 40 } } }`;

export const compensationMissing: Rule = {
  id: 'compensation-missing',
  severity: 'error',
  title: 'the datum leaves out the radius of the tip',
  what: 'A datum rests on touches from one side (a sum in which the approaches do not cancel), and nothing in it stands for the diameter of the tip. Quiet where the approaches cancel, as in the centre of a bore; for touches in Z; and where a value enters that is set outside the file.',
  why: 'The control latches the centre of the ball, which stands half an effective diameter before the surface. Without that half the work zero lies off the edge by it, and so does everything that is cut.',
  instead:
    'Add half the effective diameter along the approach: plus for a touch towards +, minus for one towards −.',
  source:
    'compensation is right exactly when c_D = ½·Σ c_i·n_i: geometry of a ball; common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      profile: shop,
      program: `G21 G90 G94 G54
G0 X0 Y0
G38.2 X20 F40
#<edge> = #5061
G0 X-5
G10 L2 P1 X[#5221 + #<edge>]
M2
`,
    },
    {
      dialect: 'macro',
      profile: shop,
      program: `G21 G90 G94 G54
G0 X0. Y0.
G31 X20. F40.
IF[#5061GT19.9]GOTO9
#5221=#5221+#5061
G0 X-5.
N9 M30
`,
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      profile: shop,
      program: `G21 G90 G94 G54
G0 X0 Y0
G38.2 X20 F40
#<edge> = [#5061 + 3.986 / 2]
G0 X-5
G10 L2 P1 X[#5221 + #<edge>]
M2
`,
    },
    {
      dialect: 'rs274ngc',
      profile: shop,
      program: `G21 G90 G94 G54
G0 X0 Y0
G38.2 X20 F40
#<right> = #5061
G0 X0
G38.2 X-20 F40
#<left> = #5061
G0 X[[#<left> + #<right>] / 2]
G10 L20 P1 X0
M2
`,
    },
  ],
  *check(context) {
    for (const datum of datumsAsSums(context.analysis.datums, context.profile)) {
      const compensation = compensationOf(datum, context.profile);
      if (compensation && isMissing(compensation, datum, context)) yield report(compensation, datum, context);
    }
  },
};

function isMissing({ verdict }: Compensation, datum: Datum, { profile }: CheckContext): boolean {
  if (verdict === 'half') return true;
  if (verdict !== 'missing') return false;
  if (datum.constants.length === 0) return true;
  // A tip of the built-in size is no ground to call somebody's number a plain constant.
  if (profile.source('probe.tipDiameter') === 'built-in' && profile.probe.calibration === null) return false;
  // One that is not round may hold the radius of this stylus, or of an older one; half of the radius is none.
  const half = effectiveDiameter(probeOf(profile)).value / 4;
  return datum.constants.every(({ value }) => {
    const size = Math.abs(value);
    return isRoundLength(size) || Math.abs(size - half) <= halfRadiusWithin;
  });
}

function report(compensation: Compensation, datum: Datum, context: CheckContext): Report {
  const { profile } = context;
  const [term] = datum.terms ?? [];
  const unit = term ? readerUnit(term.touch.modes, profile) : profile.units;
  const error = compensationError(compensation, profile);
  const what =
    compensation.verdict === 'half'
      ? 'Only half of the tip’s radius is taken into account'
      : 'The radius of the tip is left out';
  return {
    message: `${what}: the touches give the centre of the ball, so ${errorSentence(error, datum, unit, profile)}.`,
    place: datum.place,
    related: touchesOf(datum),
    fixes: isMeantAlone(compensation, datum, context) ? radiusFix(datum, compensation.needed, context) : [],
  };
}

/** Nothing of the tip enters yet, and every call that comes by lacks the same. */
function isMeantAlone({ needed }: Compensation, datum: Datum, { analysis, profile }: CheckContext): boolean {
  if (datum.diameters.length > 0) return false;
  const here = analysis.datums.filter(
    ({ file, place }) =>
      file === null && place.line === datum.place.line && place.start === datum.place.start,
  );
  return datumsAsSums(here, profile).every((each) => {
    const other = compensationOf(each, profile);
    return other?.verdict === 'missing' && Math.abs(other.needed - needed) < 1e-9;
  });
}

/** The touches of this file that the datum rests on. */
export function touchesOf(datum: Datum): NonNullable<Report['related']> {
  const touches = new Set((datum.terms ?? datum.magnitude?.terms ?? []).map(({ touch }) => touch));
  return [...touches].flatMap((touch) =>
    touch.file === null ? [{ message: 'rests on this touch', place: touch.place }] : [],
  );
}
