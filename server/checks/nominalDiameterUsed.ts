import { nominalIsFault } from '../probe/diameterLiteral.ts';
import { effectiveDiameter } from '../probe/effectiveDiameter.ts';
import { probeOf } from '../profile/probeOf.ts';
import { errorSentence, usesOf } from './compensation.ts';
import { touchesOf } from './compensationMissing.ts';
import { diameterFix } from './diameterFix.ts';
import { lengthText, readerUnit } from './quantity.ts';
import type { Rule } from './rule.ts';

const shop = `{ "probe": { "tipDiameter": 4, "calibration": { "effectiveDiameter": 3.97, "expandedUncertainty": 0.002, "feed": 40 } } }`;

export const nominalDiameterUsed: Rule = {
  id: 'nominal-diameter-used',
  severity: 'error',
  title: 'the diameter that a micrometer reads, not the effective one',
  what: 'A datum is compensated with a number that is the actual diameter or radius of the tip, where the calibration found an effective diameter that differs from it by more than its uncertainty.',
  why: 'The probe trips only after the tip has been pushed on: the ball acts smaller than it is, by twice the mean pre-travel. Every edge set with the actual radius is off by that pre-travel.',
  instead: 'Use the effective diameter of the calibration, or a parameter that holds it.',
  source: 'effective diameter = actual less twice the pre-travel: common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      profile: shop,
      program: `G21 G90 G94 G54
G0 X0 Y0
G38.2 X20 F40
#<edge> = [#5061 + 2]
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
#<edge> = [#5061 + 1.985]
G0 X-5
G10 L2 P1 X[#5221 + #<edge>]
M2
`,
    },
  ],
  *check(context) {
    const { profile, analysis } = context;
    const probe = probeOf(profile);
    if (!nominalIsFault(probe)) return;
    const effective = effectiveDiameter(probe).value;
    for (const { datum, use } of usesOf(
      [...analysis.datums, ...analysis.storedResults],
      'nominal',
      profile,
    )) {
      const [term] = datum.terms ?? [];
      const unit = term ? readerUnit(term.touch.modes, profile) : profile.units;
      const error = errorSentence(use.coefficient * (probe.tipDiameter - effective), datum, unit, profile);
      yield {
        message: `This is the actual size of the tip; its effective diameter is ${lengthText(effective, unit)}, so ${error}.`,
        place: use.place,
        related: touchesOf(datum),
        fixes: diameterFix(
          use,
          effective / probe.tipDiameter,
          (text) => `Use the effective one, ${text}`,
          context,
        ),
      };
    }
  },
};
