import type { CalibrationEntry } from '../profile/writeCalibration.ts';
import type { CalibrationReport } from './calibrationReport.ts';

/**
 * What the profile is to hold of a calibration.
 * @param place day, temperature in °C, and the file of the touches as seen from the profile
 */
export function calibrationEntry(
  report: CalibrationReport,
  place: Pick<CalibrationEntry, 'date' | 'temperature' | 'touches'>,
): CalibrationEntry {
  const { result } = report;
  const spread = spreadOf(report);
  return {
    ...place,
    spindle: report.kind === 'sphere' ? null : report.result.spindle,
    effectiveDiameter: result.effectiveDiameter,
    expandedUncertainty: result.uncertainty?.expandedUncertainty ?? null,
    coverageFactor: result.uncertainty?.coverageFactor ?? null,
    feed: result.speed === null ? null : result.speed * 60,
    residualStandardDeviation: spread?.standardDeviation ?? null,
    degreesOfFreedom: spread?.degreesOfFreedom ?? null,
    harmonics: lobesOf(report),
  };
}

function spreadOf({ kind, result }: CalibrationReport) {
  if (kind === 'flat') return result.repeatability;
  const { residualStandardDeviation: standardDeviation, degreesOfFreedom } = result;
  return standardDeviation === null ? null : { standardDeviation, degreesOfFreedom };
}

/** Lobes count as observed where the three of the supports were. */
function lobesOf(report: CalibrationReport): CalibrationEntry['harmonics'] {
  if (report.kind === 'flat') return null;
  return report.result.harmonics.some(({ order }) => order === 3) ? report.result.harmonics : null;
}

/** Why a calibration cannot stand in a profile; null: it can. */
export function unfitForProfile(report: CalibrationReport): string | null {
  return report.kind === 'round' && report.result.latencyUnseen
    ? 'the touches have several feeds, and no one feed holds for the diameter.'
    : null;
}
