import type { Probe } from '../probe/probe.ts';
import type { CalibrationReport } from './calibrationReport.ts';
import type { ObservedRadius } from './radiusCurve.ts';
import { radiusPicture } from './radiusPicture.ts';

/**
 * The calibration of a ring or a plug as a polar picture, SVG: the lobes that were solved for and what each touch saw, at
 * the spindle angle that the calibration holds for. null: other references have no radius over a whole turn.
 * @param probe what else is known of it; its own calibration is left out
 */
export function calibrationPicture(report: CalibrationReport, probe: Probe): string | null {
  if (report.kind !== 'round') return null;
  const { effectiveDiameter, harmonics, speed, uncertainty, spindle, directions } = report.result;
  const calibration = {
    effectiveDiameter,
    expandedUncertainty: uncertainty?.expandedUncertainty ?? null,
    coverageFactor: uncertainty?.coverageFactor ?? 2,
    speed,
    harmonics,
  };
  const observed = directions.map(
    ({ direction, spindle: turned, effectiveRadius }): ObservedRadius => ({
      direction: direction - ((turned ?? 0) - (spindle ?? 0)),
      effectiveRadius,
    }),
  );
  return radiusPicture(
    { ...probe, tipDiameter: report.tipDiameter ?? probe.tipDiameter, calibration },
    { direction: null, observed, units: report.show.units },
  );
}
