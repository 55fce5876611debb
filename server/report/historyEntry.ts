import { type HistoryLine, roundedEntry } from '../probe/calibration/readHistory.ts';
import type { CalibrationReport } from './calibrationReport.ts';

/**
 * What the history is to hold of a calibration.
 * @param place day, and the file of the touches as seen from the history; null: from no file
 */
export function historyEntry(
  { result, tipDiameter }: CalibrationReport,
  place: Pick<HistoryLine, 'date' | 'touches'>,
): HistoryLine {
  return roundedEntry({
    ...place,
    effectiveDiameter: result.effectiveDiameter,
    expandedUncertainty: result.uncertainty?.expandedUncertainty ?? null,
    coverageFactor: result.uncertainty?.coverageFactor ?? null,
    tipDiameter,
    feed: result.speed === null ? null : result.speed * 60,
  });
}
