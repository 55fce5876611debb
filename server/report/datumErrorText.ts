import type { DatumErrorResult } from '../analysis/error.ts';
import type { Term } from '../analysis/model.ts';
import { type BudgetPage, budgetText, verdictText } from './budgetText.ts';
import { answerRows } from './decisionRows.ts';
import type { DatumWithError } from './errorReport.ts';
import { labelled } from './labelled.ts';
import { lineName } from './lineName.ts';
import type { Quantities } from './quantities.ts';
import { rowsText } from './sheetText.ts';
import { printable } from './style.ts';
import { approach } from './touchErrorText.ts';

/** One datum: the touches that it is made of, how wrong it can be and why. */
export function datumErrorText({ datum, error, show, answers }: DatumWithError, page: BudgetPage): string {
  const { style, width } = page;
  const head = `${`${datum.line + 1}`.padStart(6)}  ${style.bold(printable(datum.target))}${datum.file === null ? '' : style.dim(`  in ${printable(datum.file)}`)}\n`;
  if (error === null) {
    const reason = printable(datum.reason ?? 'no touch enters it');
    return `${head}${labelled('expected error', `not known yet: ${reason}`, width, style.yellow)}`;
  }
  const parts = [...error.terms.map((term) => termText(term, error)), ...diameterTexts(error, show)];
  const made = error.firstOrder ? 'changes with' : 'made of';
  return [
    head,
    ...parts.map((part, index) => labelled(index === 0 ? made : '', part, width)),
    verdictText(error, show, page),
    rowsText(answerRows(answers, show), style, width),
    budgetText(error, `${lineName(datum)} ${datum.target}`, show, page),
  ].join('');
}

function termText({ touch, axis, coefficient, from }: Term, { unit }: DatumErrorResult): string {
  const value = from === 'latched' ? '' : ', from where the axis stopped';
  const perMm = unit === 'degrees' && 'xyz'.includes(axis) ? '°/mm' : '';
  return `${share(coefficient)}${perMm} × ${axis.toUpperCase()} of ${lineName(touch)} (${touch.code} ${approach(touch)})${value}`;
}

function diameterTexts(error: DatumErrorResult, show: Quantities): string[] {
  const beside = error.restsOnInputs ? ['something whose value is not in the file'] : [];
  if (error.diameters.length === 0) return ['no tip diameter', ...beside];
  const parts = error.diameters.map(({ coefficient, value, source }) => {
    const size =
      value === null ? 'a diameter whose value is not in the file' : `diameter ${show.length(value)}`;
    return `${share(coefficient)} × ${size} (${sources[source]})`;
  });
  return [...parts, ...(error.diameterCoefficient === 0 ? ['the diameters cancel'] : []), ...beside];
}

function share(coefficient: number): string {
  return `${coefficient < 0 ? '−' : '+'}${Number(Math.abs(coefficient).toFixed(4))}`;
}

const sources = {
  effective: 'the effective diameter',
  nominal: 'the actual diameter of the tip',
  outdated: 'near the effective diameter, but not the current one',
  'wrong-unit': 'a diameter in the other unit',
  'tool-table': 'from the tool table',
  parameter: 'from the parameter that the profile names',
} as const;
