import type { Profile } from '../profile/profile.ts';
import type { DialectName } from '../syntax/dialect.ts';
import type { Units } from './routine.ts';
import { inUnits, sayFeed, sayLength } from './units.ts';

/** Where a routine has the tip's diameter from, and what it says about it. */
export interface TipSource {
  /** mm, what the result reckons with; null: read by the control, unknown here. */
  readonly mm: number | null;
  /** `#5410`; null: a literal. */
  readonly parameter: string | null;
  readonly says: string;
}

/**
 * The effective diameter: from the parameter that the shop keeps it in where this dialect and these units can read it, else
 * as a literal with the day of its calibration, else the actual diameter of the tip, and then it says so.
 */
export function tipSource(profile: Profile, dialect: DialectName, units: Units): TipSource {
  const parameter = readableParameter(profile, dialect, units);
  const { calibration, tipDiameter } = profile.probe;
  if (parameter !== null)
    return {
      mm: calibration?.effectiveDiameter ?? null,
      parameter,
      says: `Effective tip diameter: read from ${parameter}.`,
    };
  if (calibration === null)
    return {
      mm: tipDiameter,
      parameter: null,
      says: `THIS PROBE IS NOT CALIBRATED: the actual tip diameter, ${sayLength(tipDiameter, units)}, stands for the effective one, which is smaller.`,
    };
  const day =
    calibration.date === null ? 'on a day that the profile does not say' : calibration.date.slice(0, 10);
  const feed = calibration.feed === null ? '' : ` at ${sayFeed(calibration.feed, units)}`;
  const literal = `${inUnits(calibration.effectiveDiameter, units)} ${units === 'inch' ? 'in' : 'mm'}`;
  return {
    mm: calibration.effectiveDiameter,
    parameter: null,
    says: `Effective tip diameter: a literal, ${literal}, calibrated ${day}${feed}. Write this routine anew after the next calibration.`,
  };
}

function readableParameter(profile: Profile, dialect: DialectName, units: Units): string | null {
  const parameter = profile.effectiveDiameterParameter;
  if (parameter === null) return null;
  const isToolTable = parameter === '#5410';
  if (dialect === 'macro' && (isToolTable || parameter.startsWith('#<'))) return null;
  // The tool table's diameter comes in the units in force; a number that the shop keeps is in the profile's units.
  return isToolTable || units === profile.units ? parameter : null;
}
