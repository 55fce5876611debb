import type { DiameterUncertainty } from '../probe/calibration/diameterUncertainty.ts';
import { calibrationNotices } from './calibrationNotices.ts';
import type { CalibrationReport } from './calibrationReport.ts';

/**
 * The stable contract for other programs, mm, s, degrees. Beyond `command-line.md`: `row` in directions (the line of the
 * file), `repeatability`, `spindle`, `feed` (mm/min), `reference`, `leftOut`, `notices`; null where nothing is known. A
 * gap or block has `axis` and `middle` in place of `centre`; a sphere `lateralRadius`, `axialRadius`, `form`.
 * @param more keys that follow
 */
export function calibrationJson(report: CalibrationReport, more: object = {}): string {
  return `${JSON.stringify({ ...resultJson(report), ...common(report), ...more }, null, 2)}\n`;
}

function resultJson(report: CalibrationReport): object {
  switch (report.kind) {
    case 'round':
      return roundJson(report);
    case 'flat':
      return flatJson(report);
    case 'sphere':
      return sphereJson(report);
  }
}

function common(report: CalibrationReport): object {
  const { kind, size, expandedUncertainty } = report.reference;
  return {
    feed: report.result.speed === null ? null : report.result.speed * 60,
    reference: { kind, size, expandedUncertainty },
    leftOut: report.leftOut,
    notices: calibrationNotices(report),
  };
}

function uncertaintyJson(uncertainty: DiameterUncertainty | null): object {
  return {
    standardUncertainty: uncertainty?.standardUncertainty ?? null,
    expandedUncertainty: uncertainty?.expandedUncertainty ?? null,
    coverageFactor: uncertainty?.coverageFactor ?? null,
  };
}

function roundJson({ result }: CalibrationReport & { kind: 'round' }): object {
  return {
    effectiveDiameter: result.effectiveDiameter,
    ...uncertaintyJson(result.uncertainty),
    centre: result.centre,
    meanPreTravel: result.meanPreTravel,
    preTravelVariation: result.preTravelVariation,
    harmonics: result.harmonics,
    notObservable: result.notObservable.map(({ order }) => order),
    condition: result.condition,
    residualStandardDeviation: result.residualStandardDeviation,
    degreesOfFreedom: result.degreesOfFreedom,
    largestResidual: result.largestResidual,
    latency: result.latency?.value ?? null,
    directions: result.directions,
    outliers: result.outliers,
    repeatability: result.repeatability,
    spindle: result.spindle,
  };
}

function flatJson({ result }: CalibrationReport & { kind: 'flat' }): object {
  return {
    effectiveDiameter: result.effectiveDiameter,
    ...uncertaintyJson(result.uncertainty),
    axis: result.axis,
    middle: result.middle,
    meanPreTravel: result.meanPreTravel,
    repeatability: result.repeatability,
    spindle: result.spindle,
  };
}

function sphereJson({ result }: CalibrationReport & { kind: 'sphere' }): object {
  return {
    effectiveDiameter: result.effectiveDiameter,
    ...uncertaintyJson(result.uncertainty),
    centre: result.centre,
    lateralRadius: result.lateralRadius,
    axialRadius: result.axialRadius,
    form: result.form,
    meanPreTravel: result.meanPreTravel,
    harmonics: result.harmonics,
    notObservable: result.notObservable,
    condition: result.condition,
    residualStandardDeviation: result.residualStandardDeviation,
    degreesOfFreedom: result.degreesOfFreedom,
    largestResidual: result.largestResidual,
    directions: result.directions,
    outliers: result.outliers,
  };
}
