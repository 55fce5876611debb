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
import { readerUnit } from './quantity.ts';
import type { CheckContext, Report, Rule } from './rule.ts';
import { signFix } from './signFix.ts';

const shop = `{ "probe": { "calibration": { "effectiveDiameter": 3.986, "expandedUncertainty": 0.002, "feed": 40 } } }`;

export const compensationReversed: Rule = {
  id: 'compensation-reversed',
  severity: 'error',
  title: 'the radius of the tip is put on the wrong side',
  what: 'A datum rests on touches from one side, and the radius of the tip is taken off where it should be added, or the other way round; or a width that is left in a parameter takes the diameter with the wrong sign.',
  why: 'The surface lies half an effective diameter beyond the centre of the ball, along the approach. With the wrong sign the error is twice that half: a whole diameter.',
  instead: 'Add the radius after a touch towards +, take it off after a touch towards −.',
  source:
    'compensation is right exactly when c_D = ½·Σ c_i·n_i: geometry of a ball; common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      profile: shop,
      program: `G21 G90 G94 G54
G0 X0 Y0
G38.2 X20 F40
#<edge> = [#5061 - 1.993]
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
G31 Y-20. F40.
IF[#5062LT-19.9]GOTO9
#5222=#5222+#5062+1.993
G0 Y5.
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
G38.2 Y-20 F40
#<edge> = [#5062 - 1.993]
G0 Y5
G10 L2 P1 Y[#5222 + #<edge>]
M2
`,
    },
  ],
  *check(context) {
    const { profile } = context;
    for (const datum of datumsAsSums(context.analysis.datums, context.profile)) {
      const compensation = compensationOf(datum, profile);
      const [use] = datum.diameters;
      const [term] = datum.terms ?? [];
      if (compensation?.verdict !== 'reversed' || !use || !term) continue;
      const unit = readerUnit(term.touch.modes, profile);
      const error = compensationError(compensation, profile);
      yield {
        message: `The radius of the tip has the wrong sign here: the touch went towards ${term.sign === 1 ? '+' : '−'}${term.axis.toUpperCase()}, so ${errorSentence(error, datum, unit, profile)}.`,
        place: use.place,
        related: touchesOf(datum),
        fixes: datum.diameters.length === 1 ? signFix(use, context) : [],
      };
    }
    for (const datum of context.analysis.storedResults) {
      const fault = storedFault(datum, profile);
      if (fault && isReversed(fault)) yield storedReport(datum, fault, context);
    }
  },
};

/** Where several diameters enter, one on the wrong side takes another away. */
function isReversed({ verdict }: Compensation): boolean {
  return verdict === 'reversed' || verdict === 'missing';
}

function storedReport(datum: Datum, fault: Compensation, context: CheckContext): Report {
  const { profile } = context;
  const [use] = datum.diameters;
  const [term] = datum.terms ?? [];
  const unit = term ? readerUnit(term.touch.modes, profile) : profile.units;
  const error = errorSentence(compensationError(fault, profile), datum, unit, profile);
  return {
    message: `The tip’s size has the wrong sign in this result: ${error}.`,
    place: datum.place,
    related: touchesOf(datum),
    fixes:
      use && datum.diameters.length === 1 && use.place.line === datum.place.line ? signFix(use, context) : [],
  };
}
