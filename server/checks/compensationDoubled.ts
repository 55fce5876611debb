import type { Datum } from '../analysis/model.ts';
import {
  type Compensation,
  compensationError,
  compensationOf,
  datumsAsSums,
  errorSentence,
  storedFault,
} from './compensation.ts';
import { touchesOf } from './compensationMissing.ts';
import { diameterFix } from './diameterFix.ts';
import { readerUnit } from './quantity.ts';
import type { CheckContext, Report, Rule } from './rule.ts';
import { sizesAdded } from './sizesAdded.ts';

const shop = `{ "probe": { "calibration": { "effectiveDiameter": 3.986, "expandedUncertainty": 0.002, "feed": 40 } } }`;

export const compensationDoubled: Rule = {
  id: 'compensation-doubled',
  severity: 'error',
  title: 'the diameter of the tip where its radius belongs, or none at all',
  what: 'A datum takes the whole diameter of the tip where half of it belongs, takes the radius twice, or takes one into a sum in which the approaches cancel and which needs none. So does a width that is left in a parameter and takes anything but the one diameter that it needs. And so does the sum of a width along X and one along Y that is left as a result, where its half, the mean, or within ABS their difference is meant.',
  why: 'The work zero comes out by a whole radius of the tip off the edge.',
  instead: 'Take half the effective diameter, once, for each touch that is not balanced by its opposite.',
  source:
    'compensation is right exactly when c_D = ½·Σ c_i·n_i: geometry of a ball; common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      profile: shop,
      program: `G21 G90 G94 G54
G0 X0 Y0
G38.2 X20 F40
#<edge> = [#5061 + 3.986]
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
G31 Y20. F40.
IF[#5062GT19.9]GOTO9
#101=#5062+1.993
G0 Y-5.
#5222=#5222+#101+1.993
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
#<edge> = [#5061 + 1.993]
G0 X-5
G10 L2 P1 X[#5221 + #<edge>]
M2
`,
    },
  ],
  *check(context) {
    for (const datum of datumsAsSums(context.analysis.datums, context.profile)) {
      const compensation = compensationOf(datum, context.profile);
      if (compensation?.verdict === 'doubled') yield report(compensation, datum, context);
    }
    for (const datum of context.analysis.storedResults) {
      const fault = storedFault(datum, context.profile);
      if (fault && ['doubled', 'half', 'other'].includes(fault.verdict))
        yield storedReport(fault, datum, context);
    }
    yield* sizesAdded(context);
  },
};

/** The text's other numbers of the tip's size may be what is meant, so no fix is offered. */
function storedReport(fault: Compensation, datum: Datum, { profile }: CheckContext): Report {
  const [term] = datum.terms ?? [];
  const unit = term ? readerUnit(term.touch.modes, profile) : profile.units;
  const error = errorSentence(compensationError(fault, profile), datum, unit, profile);
  return {
    message: `The tip’s diameter enters this result ${times(fault.used)}, where the touches want it ${times(fault.needed)}: ${error}.`,
    place: datum.place,
    related: touchesOf(datum),
  };
}

function times(count: number): string {
  return `${Math.round(count * 1000) / 1000} times`;
}

function report(compensation: Compensation, datum: Datum, context: CheckContext): Report {
  const { profile } = context;
  const [use] = datum.diameters;
  const [term] = datum.terms ?? [];
  const unit = term ? readerUnit(term.touch.modes, profile) : profile.units;
  const error = errorSentence(compensationError(compensation, profile), datum, unit, profile);
  const balanced = Math.abs(compensation.needed) < 1e-6;
  return {
    message: balanced
      ? `The approaches cancel here and need no radius of the tip: with it ${error}.`
      : `Twice the radius of the tip is taken into account: ${error}.`,
    place: use?.place ?? datum.place,
    related: touchesOf(datum),
    fixes:
      use && !balanced && datum.diameters.length === 1
        ? diameterFix(use, 0.5, (text) => `Take the radius, ${text}`, context)
        : [],
  };
}
