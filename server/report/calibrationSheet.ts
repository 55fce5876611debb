import type { Calibration } from '../probe/calibration/calibrate.ts';
import type { DiameterUncertainty } from '../probe/calibration/diameterUncertainty.ts';
import type { FlatCalibration } from '../probe/calibration/flat.ts';
import type { SphereCalibration } from '../probe/calibration/sphere.ts';
import type { Harmonic } from '../probe/probe.ts';
import type { Asking } from './asking.ts';
import { calibrationNotices } from './calibrationNotices.ts';
import type { CalibrationReport, Notice } from './calibrationReport.ts';
import { counted } from './counted.ts';
import { linesText } from './countWords.ts';
import { fineLength } from './fineLength.ts';
import type { Quantities } from './quantities.ts';
import { column, type Row, row, rowsUnder, type Sheet, type Table } from './sheet.ts';
import { printable } from './style.ts';

/** A calibration for a person, in a terminal (`sheetText`) or on a page. */
export function calibrationSheet(report: CalibrationReport): Sheet {
  const { show } = report;
  return {
    name: report.path,
    about: aboutText(report),
    rows: [
      row('diameter', diameterText(report, show), 'main'),
      row('pre-travel', preTravelText(report)),
      ...body(report),
    ],
    notes: noticeRows(calibrationNotices(report)),
  };
}

/** Each notice with its severity in front. */
export function noticeRows(notices: readonly Notice[]): Row[] {
  return notices.map(({ severity, message }) =>
    severity === 'info' ? row('note', message, 'aside') : row(severity, printable(message), severity),
  );
}

function aboutText({
  reference,
  count,
  leftOut,
  show,
  referenceUncertaintyStated,
}: CalibrationReport): string {
  const sure = referenceUncertaintyStated ? ` ±${show.error(reference.expandedUncertainty)}` : '';
  const without = leftOut.length === 0 ? '' : `, without ${linesText(leftOut)}`;
  return `${reference.kind} of ${fineLength(reference.size, show.units)}${sure}, ${counted(count, 'touch', 'touches')}${without}`;
}

function diameterText({ result }: CalibrationReport, show: Quantities): string {
  return `effective ${fineLength(result.effectiveDiameter, show.units)} ${plusMinus(result.uncertainty, show)}`;
}

function plusMinus(uncertainty: DiameterUncertainty | null, show: Quantities): string {
  if (uncertainty === null) return '(uncertainty not known)';
  const nu = uncertainty.degreesOfFreedom;
  const freedom = nu === null || nu > 1000 ? '∞' : nu.toFixed(1);
  return `±${show.error(uncertainty.expandedUncertainty)} (U, 95 %, k = ${uncertainty.coverageFactor.toFixed(2)}, ν = ${freedom})`;
}

function preTravelText({ result, tipDiameter, asking, show }: CalibrationReport): string {
  return result.meanPreTravel === null || tipDiameter === null
    ? `not known: state the actual tip diameter (${asking.tipDiameter})`
    : `${show.signedError(result.meanPreTravel)} on the mean: half of the tip's ${fineLength(tipDiameter, show.units)} less the effective diameter, latency included`;
}

function body(report: CalibrationReport): Row[] {
  switch (report.kind) {
    case 'round':
      return roundBody(report.result, report);
    case 'flat':
      return flatBody(report.result, report.show);
    case 'sphere':
      return sphereBody(report.result, report.show);
  }
}

function roundBody(result: Calibration, { show, asking }: CalibrationReport): Row[] {
  const variation =
    result.preTravelVariation === null
      ? 'not known: three-lobed pre-travel is not observable'
      : `${show.error(result.preTravelVariation)} from the largest to the smallest over a turn`;
  return [
    row('variation', variation),
    ...lobes(result.harmonics, show),
    row('centre', coordinates(result.centre, ['X', 'Y'], show)),
    ...(result.latency === null ? [] : [row('latency', latencyText(result.latency))]),
    row('residuals', residualText(result, show)),
    ...(result.repeatability === null
      ? []
      : [
          row(
            'repeatability',
            `${show.error(result.repeatability.standardDeviation)}, one standard deviation of repeated touches, ν = ${result.repeatability.degreesOfFreedom}`,
          ),
        ]),
    row(
      'told apart',
      `condition number ${result.condition.toFixed(1)} (at most 20)${result.spindles.length > 1 ? `, spindle at ${result.spindles.join('°, ')}°` : ''}`,
    ),
    touchRow(result, show, asking),
  ];
}

function latencyText({ value, standardUncertainty }: NonNullable<Calibration['latency']>): string {
  const spread =
    standardUncertainty === null ? '' : ` ± ${(standardUncertainty * 1000).toFixed(2)} ms (standard)`;
  return `${(value * 1000).toFixed(2)} ms${spread} from trip to latch: machine.tripLatency`;
}

function residualText(
  result: Pick<Calibration, 'residualStandardDeviation' | 'degreesOfFreedom' | 'largestResidual'>,
  show: Quantities,
): string {
  const { residualStandardDeviation: s, degreesOfFreedom: nu, largestResidual } = result;
  return s === null
    ? 'no degrees of freedom: every number of touches like this one fits'
    : `${show.error(s)}, one standard deviation, ν = ${nu}; the largest ${show.error(largestResidual)}`;
}

function lobes(harmonics: readonly Harmonic[], show: Quantities): Row[] {
  const texts = harmonics.map(({ order, cosine, sine }) => {
    const most = (((Math.atan2(sine, cosine) * 180) / Math.PI + 360) % 360) / order;
    return `order ${order}: ${show.error(Math.hypot(cosine, sine))}, radius largest at ${most.toFixed(0)}°`;
  });
  return rowsUnder('lobes', texts);
}

function coordinates(values: readonly number[], names: readonly string[], { units }: Quantities): string {
  return names.map((name, index) => `${name} ${fineLength(values[index] ?? 0, units)}`).join(', ');
}

const mostTouchesShown = 60;

function touchRow({ directions, outliers }: Calibration, show: Quantities, asking: Asking): Row {
  const turned = directions.some(({ spindle }) => spindle !== null);
  const table: Table = {
    columns: [
      column('Line', 'line '),
      column('Approach'),
      ...(turned ? [column('Spindle', 'spindle ')] : []),
      column('Effective radius', 'r '),
      column('Residual'),
    ],
    rows: directions
      .slice(0, mostTouchesShown)
      .map(({ row: line, direction, spindle, effectiveRadius, residual }) => ({
        cells: [
          `${line}`,
          `${angleText(direction)}°`,
          ...(turned ? [`${spindle ?? 0}°`] : []),
          fineLength(effectiveRadius, show.units),
          show.signedError(residual),
        ],
        tone: outliers.includes(line) ? 'warning' : 'plain',
      })),
  };
  const left = directions.length - mostTouchesShown;
  const more = left > 0 ? `; ${left} more: ${asking.wholeTable}` : '';
  const text = `direction of approach, effective radius, residual (observed − fitted)${more}`;
  return row('touches', text, 'plain', table);
}

function flatBody(result: FlatCalibration, show: Quantities): Row[] {
  return [
    row(
      'axis',
      `${result.axis.toFixed(1)}° from X+, ${result.touches[0]} and ${result.touches[1]} touches; middle at ${fineLength(result.middle, show.units)} along it`,
    ),
    ...(result.repeatability === null
      ? []
      : [
          row(
            'repeatability',
            `${show.error(result.repeatability.standardDeviation)}, one standard deviation, ν = ${result.repeatability.degreesOfFreedom}`,
          ),
        ]),
  ];
}

function sphereBody(result: SphereCalibration, show: Quantities): Row[] {
  const axial =
    result.axialRadius === null
      ? 'not known'
      : `${fineLength(result.axialRadius, show.units)} ${plusMinus(result.axialUncertainty, show)}`;
  return [
    row('lateral radius', fineLength(result.lateralRadius, show.units)),
    row('axial radius', axial),
    row('form', `${show.error(result.form)}: range of the distances from one sphere of least squares`),
    ...lobes(result.harmonics, show),
    row('centre', coordinates(result.centre, ['X', 'Y', 'Z'], show)),
    row('residuals', residualText(result, show)),
    row('told apart', `condition number ${result.condition.toFixed(1)} (at most 20)`),
  ];
}

/** One decimal, 359.97 as 0.0. */
function angleText(degrees: number): string {
  return (Number(degrees.toFixed(1)) % 360).toFixed(1);
}
