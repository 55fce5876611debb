import type { Datum } from '../analysis/model.ts';
import { guessedDiameter } from '../analysis/near.ts';
import { effectiveDiameter } from '../probe/effectiveDiameter.ts';
import { probeOf } from '../profile/probeOf.ts';
import type { Profile } from '../profile/profile.ts';
import { axisOf, compensationOf } from './compensation.ts';
import { touchesOf } from './compensationMissing.ts';
import { lengthText } from './quantity.ts';
import type { CheckContext, Report } from './rule.ts';

/** Guesses at where the part lies that agree to this, mm, are about the same distance. */
const agreement = 1e-3;

/**
 * A corner of two sloping faces of which one is not taken where the other meets it: Σ c_i·(other coordinate of touch i) is
 * not the other face's own coordinate, by more than the tip's diameter, whichever radius was put in. Geometry of two lines.
 */
export function* cornersOffFace({ analysis, profile }: CheckContext): Iterable<Report> {
  for (const datum of analysis.datums) {
    const gap = gapOf(datum, analysis.datums, profile);
    if (gap === null) continue;
    const turned = lengthText(gap * Math.tan(Math.PI / 180), profile.units);
    yield {
      message: `${datum.target} is taken on its face ${lengthText(gap, profile.units)} away from where the other face meets it: with the part turned by 1° it comes out ${turned} off. A way along the face is wrong, or its sign.`,
      place: datum.place,
      related: touchesOf({ ...datum, terms: datum.near[0]?.terms ?? null }),
    };
  }
}

/** mm between the two places; null where they are the same, or where no single other face belongs to it. */
function gapOf(datum: Datum, datums: readonly Datum[], profile: Profile): number | null {
  const { spots } = datum;
  const partner = `${datum.target.slice(0, datum.target.lastIndexOf('.'))}.${axisOf(datum) === 'X' ? 'y' : 'x'}`;
  const others = datums.filter((each) => each.target === partner && each.spots.length > 0);
  const [other] = others;
  if (spots.length === 0 || !other || others.length > 1) return null;
  const { value: diameter } = effectiveDiameter(probeOf(profile));
  const gaps = spots.map(({ across }, i) => {
    const near = other.near[i];
    const used = near?.diameters.some(({ value }) => value === null) ? guessedDiameter : diameter;
    const beyond = (near && compensationOf(near, profile)?.needed) ?? 0;
    return across - ((other.spots[i]?.along ?? Number.NaN) + beyond * used);
  });
  const [first = 0] = gaps;
  if (!gaps.every((gap) => Math.abs(gap - first) <= agreement)) return null;
  return Math.abs(first) > diameter ? Math.abs(first) : null;
}
