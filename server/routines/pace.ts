import { effectiveRadius } from '../probe/effectiveRadius.ts';
import type { Probe } from '../probe/probe.ts';
import { speedForStoppingDistance, stoppingDistance } from '../probe/stoppingDistance.ts';
import { measuringFeed } from '../profile/measuringFeed.ts';
import type { Profile } from '../profile/profile.ts';

/** Feeds (mm/min) and short ways (mm) that every touch of a routine uses, worked out from the profile. */
export interface Pace {
  /** Of travel that is ready to meet something: the probe survives it even at 200 % override. */
  readonly guarded: number;
  readonly search: number;
  readonly measuring: number;
  /** Back from the first touch's latched position before the second. */
  readonly backOff: number;
  /** How far the second touch may go past the first. */
  readonly past: number;
  /** The two touches of one place must agree within this. */
  readonly agreement: number;
  /** A search that trips within this of its start found no surface: the signal was on. */
  readonly atOnce: number;
  /** Two positions nearer than this are the same place. */
  readonly samePlace: number;
  /** How far from the beginning of a search a station stands, so that backing off stays on travelled ground. */
  readonly approach: number;
}

/** The pace for this profile; `agreement` in mm where the person chose one. */
export function paceOf(profile: Profile, probe: Probe, agreement = defaultAgreement(profile, probe)): Pace {
  const measuring = measuringFeedOf(profile);
  const guarded = roundedDown(Math.min(profile.feeds.positioning, fastestSurvivable(probe) * 60));
  const search = Math.min(profile.feeds.search, guarded, Math.max(measuring, fastestOffStem(probe) * 60));
  const seated = stoppingDistance(probe, search / 60) + greatestPreTravel(probe) + probe.release;
  // A false trip of the second touch shows as a disagreement only where the way back is long against the limit.
  const backOff = roundedUp(Math.max(seated + 0.2, 5 * agreement, 0.5), 0.1);
  return {
    guarded,
    search,
    measuring,
    backOff,
    past: roundedUp(Math.max(0.5, 3 * agreement), 0.1),
    agreement,
    atOnce: 0.1,
    samePlace: Math.max(0.02, 5 * probe.machine.resolution),
    approach: roundedUp(Math.max(2, backOff + 0.5), 0.5),
  };
}

/** The feed of the touch that counts, mm/min: the calibration's, else the profile's. */
export function measuringFeedOf(profile: Profile): number {
  return measuringFeed(profile) ?? profile.feeds.measuring;
}

/** Why no routine can be written for this profile; null where one can. */
export function paceProblem(profile: Profile, pace: Pace): string | null {
  if (pace.measuring <= pace.guarded) return null;
  return `The measuring feed of the profile, ${rounded(pace.measuring)} mm/min, is faster than ${rounded(pace.guarded)} mm/min, the fastest at which this probe stays within its overtravel and under feeds.positioning (${rounded(profile.feeds.positioning)} mm/min). Calibrate at a slower feed.`;
}

/** Least limit that an honest pair of touches keeps, mm: three standard deviations of their difference and the shift of the faster one. */
export function leastAgreement(profile: Profile, probe: Probe): number {
  const { tripLatency, latchPeriod, resolution } = probe.machine;
  const [search, measuring] = [profile.feeds.search / 60, measuringFeedOf(profile) / 60];
  const shift = Math.abs(search - measuring) * tripLatency;
  const spread = 3 * Math.SQRT2 * probe.repeatability.standardDeviation;
  return roundedUp(shift + spread + search * latchPeriod + resolution, 0.001);
}

/** Room for a doubled feed override, which doubles the shift, and for what the profile does not know. */
export function defaultAgreement(profile: Profile, probe: Probe): number {
  return Math.max(0.02, roundedUp(2.5 * leastAgreement(profile, probe), 0.01));
}

/** mm/s: within the safety factor as programmed, and within the limit itself at 200 % override. */
function fastestSurvivable(probe: Probe): number {
  const least = Math.min(probe.overtravel.lateral, probe.overtravel.axial);
  const allowed = 0.95 * least;
  const asProgrammed = speedForStoppingDistance(probe, allowed / probe.overtravelSafetyFactor);
  return Math.min(asProgrammed, speedForStoppingDistance(probe, allowed) / 2);
}

/** mm/s: at 200 % override the ball still stops before the stem behind it comes to the wall; no limit where it can't. */
function fastestOffStem(probe: Probe): number {
  const room = 0.95 * (probe.tipDiameter / 2 - probe.stylus.stemDiameter / 2) - greatestPreTravel(probe);
  return room > 0 ? roundedDown(speedForStoppingDistance(probe, room) / 2) : Infinity;
}

function greatestPreTravel(probe: Probe): number {
  const directions = Array.from({ length: 36 }, (_, i) => i * 10);
  const radii = directions.map((direction) => effectiveRadius(probe, direction, 0, 'towards'));
  return Math.max(0, probe.tipDiameter / 2 - Math.min(...radii));
}

/** Two significant digits, downwards. */
function roundedDown(value: number): number {
  const step = 10 ** (Math.floor(Math.log10(value)) - 1);
  return Math.floor(value / step + 1e-9) * step;
}

function roundedUp(value: number, step: number): number {
  return Number((Math.ceil(value / step - 1e-9) * step).toFixed(6));
}

function rounded(value: number): string {
  return String(Number(value.toPrecision(4)));
}
