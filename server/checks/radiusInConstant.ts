import { compensationOf } from './compensation.ts';
import { touchesOf } from './compensationMissing.ts';
import { lengthText, readerUnit } from './quantity.ts';
import { radiusShare } from './radiusShare.ts';
import type { Rule } from './rule.ts';

const shop = `{ "probe": { "tipDiameter": 4, "calibration": { "effectiveDiameter": 3.97, "expandedUncertainty": 0.002, "feed": 40 } } }`;

export const radiusInConstant: Rule = {
  id: 'radius-in-constant',
  severity: 'info',
  title: 'a constant that holds the radius of the tip',
  what: 'A datum adds a number that is no round one by itself, but is one when the radius of the tip is taken out: a plate or a distance to which somebody added the radius by hand.',
  why: 'It is right for this stylus only. After the next stylus or calibration the datum is wrong, and nothing in the program shows where.',
  instead: 'Write the two parts apart: the distance, and the radius from the place that holds it.',
  source: 'common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      profile: shop,
      program: `G21 G90 G94 G54
G0 X0 Y0
G38.2 X20 F40
#<edge> = [#5061 + 9.485]
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
#<edge> = [#5061 + 1.985 + 7.5]
G0 X-5
G10 L2 P1 X[#5221 + #<edge>]
M2
`,
    },
  ],
  *check({ analysis, profile }) {
    for (const datum of analysis.datums) {
      const compensation = compensationOf(datum, profile);
      const [term] = datum.terms ?? [];
      if (compensation?.verdict !== 'missing' || !term) continue;
      const unit = readerUnit(term.touch.modes, profile);
      for (const constant of datum.constants) {
        const share = radiusShare(constant, profile);
        if (share)
          yield {
            message: `This number can only be ${lengthText(share.rest, unit)} ${share.rest < Math.abs(constant.value) ? 'and' : 'less'} the radius of the tip, ${lengthText(share.radius, unit)}: it is wrong after the next stylus change.`,
            place: constant.place,
            related: touchesOf(datum),
          };
      }
    }
  },
};
