import type { BudgetPage } from './budgetText.ts';
import { datumErrorText } from './datumErrorText.ts';
import type { ErrorReport } from './errorReport.ts';
import { printable, type Style } from './style.ts';
import { touchErrorText } from './touchErrorText.ts';
import { wrapIndented } from './wrap.ts';

/** For people: a block for each touch and datum, lengths in the program's units, errors in µm or parts of an inch. */
export function errorText(report: ErrorReport, style: Style, width: number): string {
  const page: BudgetPage = { profile: report.profile, style, width, shown: new Map() };
  return [
    heading(report, style),
    ...titled(
      'Touches',
      style,
      report.touches.map((each) => touchErrorText(each, page)),
    ),
    ...(report.touches.length === 0 ? ['No touch was found in this program.\n'] : []),
    ...titled(
      'Datums',
      style,
      report.datums.map((each) => datumErrorText(each, page)),
    ),
    ...(report.datums.length === 0 ? ['No datum is written from a touch, as far as was followed.\n'] : []),
    ...titled(
      'Results in parameters',
      style,
      report.results.map((each) => datumErrorText(each, page)),
    ),
    ...notFollowed(report, style, width),
    closing(report, style, width),
  ].join('\n');
}

function heading({ path, dialect, profile }: ErrorReport, style: Style): string {
  const { calibration } = profile.probe;
  const named =
    profile.path === null ? 'built-in values, no profile found' : `profile ${printable(profile.path)}`;
  const state =
    calibration === null
      ? style.yellow('predicted, not calibrated')
      : `calibrated${calibration.date === null ? '' : ` ${printable(calibration.date)}`}`;
  return `${style.bold(printable(path))} ${style.dim(`(${dialect})`)}  ${named}: ${state}\n`;
}

function titled(title: string, style: Style, blocks: readonly string[]): string[] {
  return blocks.length === 0 ? [] : [`${style.bold(title)}\n`, ...blocks];
}

function notFollowed({ notKnown }: ErrorReport, style: Style, width: number): string[] {
  if (notKnown.length === 0) return [];
  const lines = notKnown.map(({ place, reason }) =>
    wrapIndented(`line ${place.line + 1}: ${printable(reason)}`, width, 6),
  );
  return [`${style.yellow('Not followed, so not in these numbers')}\n${lines.join('')}`];
}

function closing({ profile }: ErrorReport, style: Style, width: number): string {
  const predicted =
    profile.probe.calibration === null
      ? 'Predicted, not calibrated: only the bending of the stem is in it, and real pre-travel is commonly 1.3 to 2 times that. '
      : '';
  const signs =
    "Bias is along the approach for a touch (positive: the surface is reported too deep) and along the machine's + axis for a datum; of a result positive where it comes out too large. U covers 95 %. Good for: ten times the expected error (common practice).";
  return wrapIndented(`${predicted}${signs}`, width, 0).replace(/.+/g, style.dim);
}
