import { effectiveDiameter } from '../probe/effectiveDiameter.ts';
import { probeOf } from '../profile/probeOf.ts';
import { errorSentence, usesOf } from './compensation.ts';
import { touchesOf } from './compensationMissing.ts';
import { diameterFix } from './diameterFix.ts';
import { lengthText, readerUnit } from './quantity.ts';
import type { Rule } from './rule.ts';

const shop = `{ "probe": { "tipDiameter": 4, "calibration": { "effectiveDiameter": 3.97, "expandedUncertainty": 0.002, "feed": 40 } } }`;

export const effectiveDiameterOutdated: Rule = {
  id: 'effective-diameter-outdated',
  severity: 'warning',
  title: 'an effective diameter that is not the current one',
  what: 'A datum is compensated with a number within 5 % of the current effective diameter or radius, which is neither that one within its uncertainty nor the actual size of the tip: it was probably right for an earlier calibration or stylus.',
  why: 'A stylus change or a new calibration moves the effective diameter; a number left in a program stays behind, and every edge is off by half the difference.',
  instead: 'Put the current effective diameter here, or keep it in one parameter that the calibration sets.',
  source: 'common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      profile: shop,
      program: `G21 G90 G94 G54
G0 X0 Y0
G38.2 X20 F40
#<edge> = [#5061 + 1.96]
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
      program: `G21 G90 G94 G54
G0 X0 Y0
G38.2 X20 F40
#<edge> = [#5061 + 3.97 / 2]
G0 X-5
G10 L2 P1 X[#5221 + #<edge>]
M2
`,
    },
  ],
  *check(context) {
    const { profile, analysis } = context;
    const effective = effectiveDiameter(probeOf(profile)).value;
    for (const { datum, use } of usesOf(analysis.datums, 'outdated', profile)) {
      const [term] = datum.terms ?? [];
      if (use.value === null) continue;
      const unit = term ? readerUnit(term.touch.modes, profile) : profile.units;
      const error = errorSentence(use.coefficient * (use.value - effective), datum, unit, profile);
      yield {
        message: `This takes the effective diameter for ${lengthText(use.value, unit)}; the current one is ${lengthText(effective, unit)}, so ${error}.`,
        place: use.place,
        related: touchesOf(datum),
        fixes: diameterFix(use, effective / use.value, (text) => `Put the current one, ${text}`, context),
      };
    }
  },
};
