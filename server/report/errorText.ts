import type { Term, Touch } from '../analysis/model.ts';
import { readerUnit } from '../checks/quantity.ts';
import type { ErrorBudget } from '../probe/derivedError.ts';
import { goodFor } from '../probe/goodFor.ts';
import type { Profile } from '../profile/profile.ts';
import { componentTitle, notIncludedText } from './budgetWords.ts';
import { directionName } from './direction.ts';
import type { DatumError, ErrorReport, TouchError } from './errorReport.ts';
import { type Quantities, quantities } from './quantities.ts';
import { printable, type Style } from './style.ts';
import { wrapIndented } from './wrap.ts';

const indent = 8;
const labelWidth = 18;

/** For people: a block for each touch and datum, lengths in the program's units, errors in µm or parts of an inch. */
export function errorText(report: ErrorReport, style: Style, width: number): string {
  const page = { report, style, width, budgets: new Map<string, string>() };
  return [
    heading(page),
    ...section('Touches', report.touches, page, touchBlock, 'No touch was found in this program.'),
    ...section(
      'Datums',
      report.datums,
      page,
      datumBlock,
      'No datum is written from a touch, as far as was followed.',
    ),
    ...notKnownBlock(page),
    closing(page),
  ].join('\n');
}

interface Page {
  readonly report: ErrorReport;
  readonly style: Style;
  readonly width: number;
  /** Budgets shown so far, so that an equal one is named and not shown again. */
  readonly budgets: Map<string, string>;
}

function heading({ report, style }: Page): string {
  const { path, probe } = report.profile;
  const { calibration } = probe;
  const profile = path === null ? 'built-in values, no profile found' : `profile ${printable(path)}`;
  const state =
    calibration === null
      ? style.yellow('predicted, not calibrated')
      : `calibrated${calibration.date === null ? '' : ` ${printable(calibration.date)}`}`;
  return `${style.bold(printable(report.path))} ${style.dim(`(${report.dialect})`)}  ${profile}: ${state}\n`;
}

function section<Entry>(
  title: string,
  entries: readonly Entry[],
  page: Page,
  block: (entry: Entry, page: Page) => string,
  none: string,
): string[] {
  if (entries.length === 0) return [`${none}\n`];
  return [`${page.style.bold(title)}\n`, ...entries.map((entry) => block(entry, page))];
}

function touchBlock({ touch, error }: ErrorReport['touches'][number], page: Page): string {
  const { style } = page;
  const show = quantities(readerUnit(touch.modes, page.report.profile));
  const feed =
    touch.feed.value === null ? 'at a feed that is not known' : `at ${show.feed(touch.feed.value)}`;
  const name = `line ${touch.line + 1}`;
  const calls =
    touch.calls.length === 0
      ? ''
      : style.dim(`  called from line ${touch.calls.map((line) => line + 1).join(', ')}`);
  const head = `${`${touch.line + 1}`.padStart(6)}  ${style.bold(touch.code)} ${directionOf(touch)} ${feed}${calls}\n`;
  if (error === null)
    return `${head}${row('expected error', style.yellow(`not known yet: ${untold(touch)}`))}`;
  return [
    head,
    verdict(error, show, style),
    radiusRow(error, touch, show),
    stopRow(error, page.report.profile, show, style),
    budgetTable(error, `${name} ${directionOf(touch)}`, page, show),
  ].join('');
}

function directionOf({ direction }: Touch): string {
  return direction === null ? directionName(direction) : `towards ${directionName(direction)}`;
}

function untold(touch: Touch): string {
  if (touch.direction === null) return 'its direction depends on what the text does not show.';
  return 'its feed depends on what the text does not show.';
}

/** The one number first, what it is made of, and what it is good for. */
function verdict(budget: ErrorBudget, show: Quantities, style: Style): string {
  const spread = `±U ${show.error(budget.expandedUncertainty)} (k = ${budget.coverageFactor.toFixed(2)}, 95 %)`;
  if (budget.bias === null || budget.expectedError === null)
    return row('expected error', `${style.yellow('bias not known')}, ${spread}`);
  const good = goodFor(budget);
  const tolerances = good
    ? row(
        'good for',
        `tolerances of ${show.tolerance(good.tenToOne)} or wider (10:1), ${show.tolerance(good.fourToOne)} at 4:1`,
      )
    : '';
  const whole = style.bold(show.error(budget.expectedError));
  return `${row('expected error', `${whole} = bias ${show.signedError(budget.bias)} and ${spread}`)}${tolerances}`;
}

function radiusRow(error: TouchError, touch: Touch, show: Quantities): string {
  if (touch.axis === 'z') return row('radius', 'none needed: the tool length, set by a touch, holds it');
  if (error.effectiveRadius === null) return '';
  const used =
    error.diameterUsed === null
      ? ''
      : `, ${show.length(error.diameterUsed / 2)} used (half of ${show.length(error.diameterUsed)})`;
  return row(
    'effective radius',
    `${show.length(error.effectiveRadius)} in this direction at this feed${used}`,
  );
}

function stopRow(error: TouchError, profile: Profile, show: Quantities, style: Style): string {
  if (error.stoppingDistance === null) return '';
  const allowed = error.overtravelLimit / profile.overtravelSafetyFactor;
  const text = `${show.length(error.stoppingDistance)} after the trip; ${show.length(allowed)} allowed (overtravel ${show.length(error.overtravelLimit)} / ${profile.overtravelSafetyFactor})`;
  return row('stops', error.stoppingDistance > allowed ? style.red(`${text}: too far`) : text);
}

function datumBlock({ datum, error, show }: ErrorReport['datums'][number], page: Page): string {
  const { style } = page;
  const head = `${`${datum.line + 1}`.padStart(6)}  ${style.bold(printable(datum.target))}\n`;
  if (error === null) {
    const reason = datum.reason ?? 'no touch enters it';
    return `${head}${wrapIndented(style.yellow(`not known yet: ${printable(reason)}`), page.width, indent)}`;
  }
  return [
    head,
    ...error.terms.map((term, index) => row(index === 0 ? 'made of' : '', termText(term))),
    ...diameterRows(datum, error, show),
    verdict(error, show, style),
    budgetTable(error, `line ${datum.line + 1} ${datum.target}`, page, show),
  ].join('');
}

function termText({ touch, axis, coefficient, from }: Term): string {
  const share = `${coefficient < 0 ? '−' : '+'}${Number(Math.abs(coefficient).toFixed(4))}`;
  const value = from === 'latched' ? 'latched' : 'where the axis stopped';
  return `${share} × ${axis.toUpperCase()} of line ${touch.line + 1} (${touch.code} ${directionOf(touch)}), ${value}`;
}

function diameterRows(
  datum: ErrorReport['datums'][number]['datum'],
  error: DatumError,
  show: Quantities,
): string[] {
  if (datum.diameters.length === 0) return [row('', 'no tip diameter in it')];
  return datum.diameters
    .map(({ coefficient, value, source }) => {
      const size =
        value === null ? 'a diameter whose value is not in the file' : `diameter ${show.length(value)}`;
      const sign = coefficient < 0 ? '−' : '+';
      return row(
        '',
        `${sign}${Number(Math.abs(coefficient).toFixed(4))} × ${size} (${diameterSources[source]})`,
      );
    })
    .concat(
      error.diameterCoefficient === 0 && datum.diameters.length > 1 ? [row('', 'the diameters cancel')] : [],
    );
}

const diameterSources = {
  effective: 'the effective diameter',
  nominal: 'the actual diameter of the tip',
  outdated: 'near the effective diameter, but not the current one',
  'wrong-unit': 'a diameter in the other unit',
  'tool-table': 'from the tool table',
  parameter: 'from the parameter that the profile names',
} as const;

/** Standard uncertainties by component, each with the profile entry it comes from. */
function budgetTable(budget: ErrorBudget, name: string, page: Page, show: Quantities): string {
  const { style, width, report } = page;
  const rows = budget.components.map((component) => [
    componentTitle(component.name),
    show.error(component.standardUncertainty),
    component.distribution,
    `${component.source}, ${origins[report.profile.source(component.source)]}`,
  ]);
  const text = rows.map(([title = '', size = '', form = '', from = '']) =>
    row(title, `${size.padStart(11)}  ${form.padEnd(11)}  ${style.dim(from)}`),
  );
  const nu = budget.degreesOfFreedom === null ? '∞' : String(Number(budget.degreesOfFreedom.toFixed(1)));
  text.push(row('together', `${show.error(budget.standardUncertainty).padStart(11)}  ν = ${nu}`));
  const left = budget.notIncluded.map((each) =>
    wrapIndented(`not included: ${notIncludedText(each)}`, width, indent),
  );
  const whole = `${text.join('')}${style.dim(left.join(''))}`;
  const before = page.budgets.get(whole);
  if (before !== undefined) return row('budget', `as ${before}`);
  page.budgets.set(whole, name);
  return `${whole}\n`;
}

const origins = { profile: 'profile', 'built-in': 'built-in value', derived: 'derived' } as const;

function row(label: string, text: string): string {
  return `${' '.repeat(indent)}${label.padEnd(labelWidth)}${text}\n`;
}

function notKnownBlock({ report, style, width }: Page): string[] {
  if (report.notKnown.length === 0) return [];
  const lines = report.notKnown.map(({ place, reason }) =>
    wrapIndented(`line ${place.line + 1}: ${printable(reason)}`, width, 6),
  );
  return [`${style.yellow('Not followed, so not in these numbers')}\n${lines.join('')}`];
}

function closing({ report, style, width }: Page): string {
  const predicted =
    report.profile.probe.calibration === null
      ? 'Predicted, not calibrated: only the bending of the stem is in it, and real pre-travel is commonly 1.3 to 2 times that. '
      : '';
  return style.dim(
    wrapIndented(
      `${predicted}Bias is along the approach for a touch (positive: the surface is reported too deep) and along the machine's + axis for a datum. U covers 95 %. Good for: ten times the expected error (common practice).`,
      width,
      0,
    ),
  );
}
