import type { Verification } from '../probe/calibration/verify.ts';
import type { AxisPair, Reversal } from '../probe/calibration/verifyAxes.ts';
import { fineLength } from './fineLength.ts';
import type { Quantities } from './quantities.ts';
import { row, rowsUnder, type Sheet } from './sheet.ts';

/** Whether a calibration still holds, in words and numbers. */
export function verificationSheet(path: string, result: Verification, show: Quantities): Sheet {
  const tones = { holds: 'good', 'touch-more': 'warning', 'calibrate-again': 'error' } as const;
  return {
    name: path,
    about: 'against the calibration of the profile',
    rows: [
      row('verdict', verdictText(result, show), tones[result.verdict]),
      row('drift', driftText(result, show)),
      row(
        'spread of a touch',
        `${show.error(result.spread.standardDeviation)} (standard), ${result.spread.from === 'touches' ? 'from the touches repeated here' : 'as stated in the profile'}`,
      ),
      ...(result.residual === null ? [] : [row('what is left', residualText(result.residual, show))]),
      ...rowsUnder(
        'across',
        result.axes.pairs.map((pair) => pairText(pair, show)),
      ),
      ...rowsUnder('turned', turnedText(result, show)),
    ],
    notes: result.oneAxis ? [row('note', oneAxisText, 'aside')] : [],
  };
}

const oneAxisText =
  'One axis only: where the touches go across the reference off its middle, a round one shows less, and that looks like drift. Touch a second axis too.';

/** Begins with a small letter. */
export function verdictText(
  { verdict, reasons, drift, detectable, calibrationUncertainty }: Verification,
  show: Quantities,
): string {
  if (verdict === 'holds')
    return `the calibration holds as far as these touches see: a drift of ${show.error(detectable)} or more would have shown.`;
  if (verdict === 'touch-more')
    return `touch more: the diameter is off by ${show.error(drift)}, more than U of the calibration (${show.error(calibrationUncertainty ?? 0)}), and these touches cannot tell it from chance (${show.error(detectable)}).`;
  const why = {
    drift: `the effective diameter moved by ${show.signedError(drift)}, more than chance (${show.error(detectable)})`,
    lobing:
      'the directions disagree with each other by more than touches spread: lobes that the calibration has not, or the form of the reference',
  };
  return `calibrate again: ${reasons.map((reason) => why[reason]).join('; ')}.`;
}

function driftText(result: Verification, show: Quantities): string {
  const nu =
    result.degreesOfFreedom === null || result.degreesOfFreedom > 1000
      ? '∞'
      : result.degreesOfFreedom.toFixed(1);
  const t =
    result.standardUncertainty === 0
      ? ''
      : `, t = ${(result.drift / result.standardUncertainty).toFixed(1).replace('-', '−')}`;
  const of =
    result.calibrationUncertainty === null ? 'not stated' : show.error(result.calibrationUncertainty);
  return `${show.signedError(result.drift)} of the effective diameter ±${show.error(result.detectable)} (U, 95 %, k = ${result.coverageFactor.toFixed(2)}, ν = ${nu}${t}); U of the calibration ${of}`;
}

function residualText(residual: NonNullable<Verification['residual']>, show: Quantities): string {
  return `${show.error(residual.standardDeviation)} (standard, ν = ${residual.degreesOfFreedom}) beside calibration, drift and place: ${residual.tooLarge ? 'more than touches spread (F test, 5 %)' : 'no more than touches spread'}`;
}

function pairText(pair: AxisPair, show: Quantities): string {
  const at = pair.spindle === null ? '' : ` at spindle ${pair.spindle}°`;
  return `axis ${pair.axis.toFixed(0)}°${at}: the two radii make ${fineLength(pair.across, show.units)}, ${show.signedError(pair.across - pair.expected)} against the calibration; middle at ${fineLength(pair.middle, show.units)}`;
}

function turnedText({ axes }: Verification, show: Quantities): string[] {
  const across = axes.across.map(
    ({ axes: [a, b], difference, expandedUncertainty }) =>
      `axis ${b.toFixed(0)}° against ${a.toFixed(0)}°: ${show.signedError(difference)} ±${show.error(expandedUncertainty)}: ${Math.abs(difference) > expandedUncertainty ? 'even lobes, or the form of the reference' : 'nothing that can be seen'}. Odd lobes do not show in diameters; turn the spindle to see them.`,
  );
  return [...axes.reversals.map((each) => reversalText(each, show)), ...across];
}

function reversalText(reversal: Reversal, show: Quantities): string {
  const { axis, spindles, shift, expected, expandedUncertainty, leastAmplitude } = reversal;
  const beyond = Math.abs(shift - expected) > expandedUncertainty;
  const seen = Math.abs(shift) > expandedUncertainty;
  const says = beyond
    ? `run-out or odd lobes that the calibration has not, of an amplitude of ${show.error(leastAmplitude)} or more`
    : seen
      ? 'as the calibration says'
      : 'no run-out and no odd lobes that can be seen on this axis';
  return `axis ${axis.toFixed(0)}°, spindle from ${spindles[0] ?? 0}° to ${spindles[1] ?? 0}°: the middle moves by ${show.signedError(shift)} ±${show.error(expandedUncertainty)} (${show.signedError(expected)} by the calibration): ${says}`;
}

/** The same for other programs: mm, degrees; null where nothing is known. */
export function verificationJson(result: Verification): string {
  return `${JSON.stringify(result, null, 2)}\n`;
}
