import type { Datum } from '../analysis/model.ts';
import type { Profile } from '../profile/profile.ts';
import { compensationOf, isCertain } from './compensation.ts';
import { touchesOf } from './compensationMissing.ts';
import type { CheckContext, Report } from './rule.ts';

const rounding = 1e-6;

/**
 * A size along X and one along Y added up and left as a result: as a sum whose half is their mean, or within ABS, where
 * their difference belongs. Common practice, no source: nobody measures the two for their sum.
 */
export function* sizesAdded({ analysis, profile }: CheckContext): Iterable<Report> {
  for (const datum of analysis.storedResults) {
    const message = messageOf(datum, profile);
    if (message) yield { message, place: datum.place, related: touchesOf(datum), severity: 'warning' };
  }
}

function messageOf(datum: Datum, profile: Profile): string | null {
  const { target, magnitude } = datum;
  if (magnitude !== null && sizeInBoth(magnitude, profile) !== null)
    return `ABS stands here around a size along X plus a size along Y: neither is ever below 0, so ABS does nothing. In their difference, which says how far from round it is, the tip’s diameter cancels; here it does not.`;
  const size = sizeInBoth(datum, profile);
  if (size === null || Math.abs(Math.abs(size) - 1) > rounding) return null;
  return `${target} is the size along X plus the size along Y, with the tip’s diameter in it twice. Half of that is their mean.`;
}

/** How often the value takes a size along X, and as often one along Y, where it is made of nothing else; else null. */
function sizeInBoth(datum: Datum, profile: Profile): number | null {
  if (datum.constants.length > 0 || !datum.diameters.some((use) => isCertain(use, profile))) return null;
  if (compensationOf(datum, profile)?.verdict !== 'right') return null;
  const terms = datum.terms ?? [];
  const [x, y] = (['x', 'y'] as const).map((axis) => {
    const along = terms.filter((term) => term.axis === axis);
    const place = along.reduce((sum, { coefficient }) => sum + coefficient, 0);
    const across = along.reduce((sum, { coefficient, sign }) => sum + coefficient * (sign ?? 0), 0);
    return Math.abs(place) > rounding ? 0 : across / 2;
  });
  const isBoth = x !== undefined && y !== undefined && Math.abs(x) > rounding && Math.abs(x - y) <= rounding;
  return isBoth && terms.every(({ axis }) => axis === 'x' || axis === 'y') ? x : null;
}
