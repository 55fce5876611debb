import { effectiveDiameter } from '../probe/effectiveDiameter.ts';
import { probeOf } from '../profile/probeOf.ts';
import { errorSentence, usesOf } from './compensation.ts';
import { touchesOf } from './compensationMissing.ts';
import { diameterFix } from './diameterFix.ts';
import { lengthText, readerUnit } from './quantity.ts';
import type { Rule } from './rule.ts';

const shop = `{ "probe": { "tipDiameter": 4, "calibration": { "effectiveDiameter": 3.97, "expandedUncertainty": 0.002, "feed": 40 } } }`;

export const unitsMismatch: Rule = {
  id: 'units-mismatch',
  severity: 'error',
  title: 'a tip size in the other unit',
  what: 'A datum is compensated with a number that is the size of the tip only if it is read in the other unit: inches in a program in millimetres, or millimetres in a program in inches.',
  why: 'The control takes the number in the unit in force: the datum is compensated by a twenty-fifth of the radius, or by twenty-five of them.',
  instead: 'Write the size in the unit of the program, or state G20 or G21 where the program begins.',
  source: 'common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      profile: shop,
      program: `G21 G90 G94 G54
G0 X0 Y0
G38.2 X20 F40
#<edge> = [#5061 + 0.07815]
G0 X-5
G10 L2 P1 X[#5221 + #<edge>]
M2
`,
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      profile: shop,
      program: `G20 G90 G94 G54
G0 X0 Y0
G38.2 X1 F1.57
#<edge> = [#5061 + 0.07815]
G0 X-0.5
G10 L2 P1 X[#5221 + #<edge>]
M2
`,
    },
  ],
  *check(context) {
    const { profile, analysis } = context;
    const effective = effectiveDiameter(probeOf(profile)).value;
    for (const { datum, use } of usesOf(analysis.datums, 'wrong-unit', profile)) {
      const [term] = datum.terms ?? [];
      if (use.value === null || !term) continue;
      const unit = readerUnit(term.touch.modes, profile);
      const error = errorSentence(use.coefficient * (use.value - effective), datum, unit, profile);
      yield {
        message: `This is the size of the tip in ${unit === 'mm' ? 'inches' : 'millimetres'}; here the control reads it in ${unit === 'mm' ? 'millimetres' : 'inches'}: it takes the tip for ${lengthText(use.value, unit)}, so ${error}.`,
        place: use.place,
        related: touchesOf(datum),
        fixes: diameterFix(
          use,
          effective / use.value,
          (text) => `Write it in ${unit === 'mm' ? 'millimetres' : 'inches'}, ${text}`,
          context,
        ),
      };
    }
  },
};
