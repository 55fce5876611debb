import type { Datum, DiameterUse } from '../analysis/model.ts';
import { effectiveDiameter } from '../probe/effectiveDiameter.ts';
import { probeOf } from '../profile/probeOf.ts';
import type { Profile } from '../profile/profile.ts';
import { errorText, lengthText, type Unit } from './quantity.ts';
import { isRoundLength } from './roundLength.ts';

/** How a datum is compensated for the tip, beside how it should be: c_D and ½·Σ c_i·n_i (error-model.md, section 4). */
export interface Compensation {
  readonly verdict: 'right' | 'missing' | 'reversed' | 'doubled' | 'half' | 'other';
  readonly needed: number;
  readonly used: number;
  /** The uses that make up `used`: a number of the tip's size that is needed for nothing is a coordinate. */
  readonly uses: readonly DiameterUse[];
}

const rounding = 1e-6;
/** Numbers of the tip's size in one value; more are not judged. */
const mostDoubtful = 6;

/**
 * null where the text does not decide: the value is not known, a touch runs along no single axis, or something enters
 * that is set outside the file and may hold the compensation. Where a choice of the doubtful numbers makes the
 * compensation right, the others are taken for the coordinates and distances that they may be.
 */
export function compensationOf(datum: Datum, profile: Profile): Compensation | null {
  if (datum.terms === null || datum.restsOnInputs) return null;
  const lateral = datum.terms.filter(({ axis }) => axis === 'x' || axis === 'y');
  if (lateral.length === 0 || lateral.some(({ sign }) => sign === null)) return null;
  const needed = lateral.reduce((sum, { coefficient, sign }) => sum + coefficient * (sign ?? 0), 0) / 2;
  const certain = datum.diameters.filter((use) => isCertain(use, profile));
  const doubtful = datum.diameters.filter((use) => !isCertain(use, profile));
  if (doubtful.length > mostDoubtful) return null;
  const right = choices(doubtful)
    .map((some) => [...certain, ...some])
    .filter((uses) => Math.abs(sumOf(uses) - needed) <= rounding);
  const [only] = right;
  // Where several choices are right, which number is the diameter cannot be told.
  if (only) return { verdict: 'right', needed, used: needed, uses: right.length === 1 ? only : certain };
  const used = sumOf(datum.diameters);
  return { verdict: verdictOf(needed, used), needed, used, uses: datum.diameters };
}

/**
 * The datums as sums of touches, those that come close to one too. Of these only what touches along the datum's own axis
 * give, in whole coordinates, and what every guess agrees on: anything else may be right all the same.
 */
export function datumsAsSums(datums: readonly Datum[], profile: Profile): readonly Datum[] {
  return datums.map((datum) => {
    const [first, ...others] = datum.near;
    const asked = first && wholeCompensation(first, profile);
    if (!asked) return datum;
    const isSame = (other: Datum) => {
      const own = wholeCompensation(other, profile);
      return own?.verdict === asked.verdict && Math.abs(own.needed - asked.needed) <= rounding;
    };
    return others.every(isSame) ? first : datum;
  });
}

function wholeCompensation(datum: Datum, profile: Profile): Compensation | null {
  if (datum.terms?.some(({ axis }) => axis.toUpperCase() !== axisOf(datum))) return null;
  const compensation = compensationOf(datum, profile);
  if (compensation === null || Math.abs(compensation.needed) <= rounding) return null;
  const halves = 2 * compensation.needed;
  return Math.abs(halves - Math.round(halves)) <= rounding ? compensation : null;
}

/** Read as a diameter by the program, or a number that nobody writes for anything else. */
export function isCertain({ source, value }: DiameterUse, profile: Profile): boolean {
  if (source === 'tool-table' || source === 'parameter') return true;
  if (source !== 'effective' || profile.probe.calibration === null || value === null) return false;
  return !isRoundLength(value) && !isRoundLength(value / 2);
}

function sumOf(uses: readonly DiameterUse[]): number {
  return uses.reduce((sum, { coefficient }) => sum + coefficient, 0);
}

function choices(uses: readonly DiameterUse[]): DiameterUse[][] {
  let made: DiameterUse[][] = [[]];
  for (const use of uses) made = made.concat(made.map((some) => some.concat(use)));
  return made;
}

function verdictOf(needed: number, used: number): Compensation['verdict'] {
  if (Math.abs(needed - used) <= rounding) return 'right';
  if (Math.abs(needed) <= rounding) return 'doubled';
  const share = used / needed;
  if (Math.abs(share) <= rounding) return 'missing';
  if (Math.abs(share + 1) <= rounding) return 'reversed';
  if (Math.abs(share - 2) <= rounding) return 'doubled';
  return Math.abs(share - 0.5) <= rounding ? 'half' : 'other';
}

/** (c_D − ½·Σ c_i·n_i)·D, mm along the machine's + axis: what a wrong compensation alone does to the datum. */
export function compensationError({ needed, used, uses }: Compensation, profile: Profile): number {
  const known = uses.find(({ value }) => value !== null)?.value;
  return (used - needed) * (known ?? effectiveDiameter(probeOf(profile)).value);
}

/** The tip that the sentence speaks of is the shop's, or one that nobody stated. */
export function errorSentence(error: number, datum: Datum, unit: Unit, profile: Profile): string {
  const size = Math.abs(error) < 0.1 ? errorText(error, unit) : lengthText(Math.abs(error), unit);
  if (isStored(datum)) return `${datum.target} comes out ${size} too ${error > 0 ? 'large' : 'small'}`;
  const towards = `${error > 0 ? '+' : '−'}${axisOf(datum)}`;
  const stated = profile.source('probe.tipDiameter') !== 'built-in' || profile.probe.calibration !== null;
  return `${datum.target} comes out ${size} too far to ${towards}${stated ? '' : ' with a tip of the built-in size'}`;
}

/** A result left in a parameter: it may be a place, a width, or anything else, so nothing is said where no diameter enters. */
export function isStored({ target }: Datum): boolean {
  return target.startsWith('#');
}

/** How a stored result is compensated wrongly; null where it is right, or where no number is the tip's for certain. */
export function storedFault(datum: Datum, profile: Profile): Compensation | null {
  const compensation = compensationOf(datum, profile);
  if (compensation === null || compensation.verdict === 'right') return null;
  return datum.diameters.some((use) => isCertain(use, profile)) ? compensation : null;
}

export function axisOf({ target }: Datum): string {
  return target.slice(target.lastIndexOf('.') + 1).toUpperCase();
}

/** The uses of the diameter in unbalanced datums that have its sign and factor right. */
export function usesOf(
  datums: readonly Datum[],
  source: DiameterUse['source'],
  profile: Profile,
): readonly { readonly datum: Datum; readonly use: DiameterUse }[] {
  return datumsAsSums(datums, profile).flatMap((datum) => {
    const compensation = compensationOf(datum, profile);
    if (compensation?.verdict !== 'right' || Math.abs(compensation.needed) <= rounding) return [];
    return compensation.uses.filter((use) => use.source === source).map((use) => ({ datum, use }));
  });
}
