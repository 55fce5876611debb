import type { Profile } from './profile.ts';

/** The measuring feed that checks compare with, mm/min: the calibration's, else a stated `feeds.measuring`, else null. */
export function measuringFeed(profile: Profile): number | null {
  return profile.probe.calibration?.feed ?? profile.statedMeasuringFeed;
}
