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
import { labelled } from './labelled.ts';
import type { Quantities } from './quantities.ts';
import { printable, type Style } from './style.ts';

interface Page {
  readonly show: Quantities;
  readonly asking: Asking;
  readonly style: Style;
  readonly width: number;
}

/** A calibration for a person at a terminal. */
export function calibrationText(report: CalibrationReport, style: Style, width: number): string {
  const page = { show: report.show, asking: report.asking, style, width };
  return [
    heading(report, page),
    labelled('diameter', diameterText(report, page.show), width, style.bold),
    preTravel(report, page),
    ...body(report, page),
    noticesText(calibrationNotices(report), style, width),
  ].join('');
}

/** Each notice with its severity in front, the urgent ones in colour. */
export function noticesText(notices: readonly Notice[], style: Style, width: number): string {
  const paint = { error: style.red, warning: style.yellow, info: style.dim };
  return notices
    .map(({ severity, message }) =>
      labelled(severity === 'info' ? 'note' : severity, printable(message), width, paint[severity]),
    )
    .join('');
}

function heading(
  { path, reference, count, leftOut, show, referenceUncertaintyStated }: CalibrationReport,
  { style }: Page,
): string {
  const sure = referenceUncertaintyStated ? ` ±${show.error(reference.expandedUncertainty)}` : '';
  const without = leftOut.length === 0 ? '' : `, without ${linesText(leftOut)}`;
  return `${style.bold(printable(path))}  ${reference.kind} of ${fineLength(reference.size, show.units)}${sure}, ${counted(count, 'touch', 'touches')}${without}\n`;
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

function preTravel({ result, tipDiameter, asking }: CalibrationReport, { show, width }: Page): string {
  const text =
    result.meanPreTravel === null || tipDiameter === null
      ? `not known: state the actual tip diameter (${asking.tipDiameter})`
      : `${show.signedError(result.meanPreTravel)} on the mean: half of the tip's ${fineLength(tipDiameter, show.units)} less the effective diameter, latency included`;
  return labelled('pre-travel', text, width);
}

function body(report: CalibrationReport, page: Page): string[] {
  switch (report.kind) {
    case 'round':
      return roundBody(report.result, page);
    case 'flat':
      return flatBody(report.result, page);
    case 'sphere':
      return sphereBody(report.result, page);
  }
}

function roundBody(result: Calibration, page: Page): string[] {
  const { show, width } = page;
  const variation =
    result.preTravelVariation === null
      ? 'not known: three-lobed pre-travel is not observable'
      : `${show.error(result.preTravelVariation)} from the largest to the smallest over a turn`;
  return [
    labelled('variation', variation, width),
    lobes(result.harmonics, page),
    labelled('centre', coordinates(result.centre, ['X', 'Y'], show), width),
    ...(result.latency === null ? [] : [labelled('latency', latencyText(result.latency), width)]),
    residualText(result, page),
    ...(result.repeatability === null
      ? []
      : [
          labelled(
            'repeatability',
            `${show.error(result.repeatability.standardDeviation)}, one standard deviation of repeated touches, ν = ${result.repeatability.degreesOfFreedom}`,
            width,
          ),
        ]),
    labelled(
      'told apart',
      `condition number ${result.condition.toFixed(1)} (at most 20)${result.spindles.length > 1 ? `, spindle at ${result.spindles.join('°, ')}°` : ''}`,
      width,
    ),
    touchTable(result, page),
  ];
}

function latencyText({ value, standardUncertainty }: NonNullable<Calibration['latency']>): string {
  const spread =
    standardUncertainty === null ? '' : ` ± ${(standardUncertainty * 1000).toFixed(2)} ms (standard)`;
  return `${(value * 1000).toFixed(2)} ms${spread} from trip to latch: machine.tripLatency`;
}

function residualText(
  result: Pick<Calibration, 'residualStandardDeviation' | 'degreesOfFreedom' | 'largestResidual'>,
  { show, width }: Page,
): string {
  const { residualStandardDeviation: s, degreesOfFreedom: nu, largestResidual } = result;
  const text =
    s === null
      ? 'no degrees of freedom: every number of touches like this one fits'
      : `${show.error(s)}, one standard deviation, ν = ${nu}; the largest ${show.error(largestResidual)}`;
  return labelled('residuals', text, width);
}

function lobes(harmonics: readonly Harmonic[], { show, width }: Page): string {
  const text = harmonics.map(({ order, cosine, sine }) => {
    const most = (((Math.atan2(sine, cosine) * 180) / Math.PI + 360) % 360) / order;
    return `order ${order}: ${show.error(Math.hypot(cosine, sine))}, radius largest at ${most.toFixed(0)}°`;
  });
  return text.length === 0 ? '' : labelled('lobes', text.join('\n'), width);
}

function coordinates(values: readonly number[], names: readonly string[], { units }: Quantities): string {
  return names.map((name, index) => `${name} ${fineLength(values[index] ?? 0, units)}`).join(', ');
}

function touchTable({ directions, outliers }: Calibration, { show, asking, style, width }: Page): string {
  const most = 60;
  const turned = directions.some(({ spindle }) => spindle !== null);
  const rows = directions.slice(0, most).map(({ row, direction, spindle, effectiveRadius, residual }) => {
    const angle = turned ? `  spindle ${`${spindle ?? 0}`.padStart(4)}°` : '';
    const text = `${' '.repeat(8)}line ${`${row}`.padStart(4)}  ${angleText(direction).padStart(6)}°${angle}  r ${fineLength(effectiveRadius, show.units)}  ${show.signedError(residual).padStart(11)}\n`;
    return outliers.includes(row) ? style.yellow(text) : text;
  });
  const left = directions.length - most;
  const more = left > 0 ? labelled('', `and ${left} more; ${asking.wholeTable}`, width, style.dim) : '';
  return `${labelled('touches', 'direction of approach, effective radius, residual (observed − fitted)', width)}${rows.join('')}${more}`;
}

function flatBody(result: FlatCalibration, { show, width }: Page): string[] {
  return [
    labelled(
      'axis',
      `${result.axis.toFixed(1)}° from X+, ${result.touches[0]} and ${result.touches[1]} touches; middle at ${fineLength(result.middle, show.units)} along it`,
      width,
    ),
    ...(result.repeatability === null
      ? []
      : [
          labelled(
            'repeatability',
            `${show.error(result.repeatability.standardDeviation)}, one standard deviation, ν = ${result.repeatability.degreesOfFreedom}`,
            width,
          ),
        ]),
  ];
}

function sphereBody(result: SphereCalibration, page: Page): string[] {
  const { show, width } = page;
  const axial =
    result.axialRadius === null
      ? 'not known'
      : `${fineLength(result.axialRadius, show.units)} ${plusMinus(result.axialUncertainty, show)}`;
  return [
    labelled('lateral radius', fineLength(result.lateralRadius, show.units), width),
    labelled('axial radius', axial, width),
    labelled(
      'form',
      `${show.error(result.form)}: range of the distances from one sphere of least squares`,
      width,
    ),
    lobes(result.harmonics, page),
    labelled('centre', coordinates(result.centre, ['X', 'Y', 'Z'], show), width),
    residualText(result, page),
    labelled('told apart', `condition number ${result.condition.toFixed(1)} (at most 20)`, width),
  ];
}

/** One decimal, 359.97 as 0.0. */
function angleText(degrees: number): string {
  return (Number(degrees.toFixed(1)) % 360).toFixed(1);
}
