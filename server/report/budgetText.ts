import type { ErrorBudget } from '../probe/derivedError.ts';
import { goodFor } from '../probe/goodFor.ts';
import type { Profile } from '../profile/profile.ts';
import { componentTitle, notIncludedTexts } from './budgetWords.ts';
import { labelled } from './labelled.ts';
import type { Quantities } from './quantities.ts';
import type { Style } from './style.ts';

/** How budgets are shown on one page; one that was shown before is named and not shown again. */
export interface BudgetPage {
  readonly profile: Profile;
  readonly style: Style;
  readonly width: number;
  /** Text of each budget shown so far, with the name of what it was shown for. */
  readonly shown: Map<string, string>;
}

/** The one number first, what it is made of, and what it is good for. */
export function verdictText(budget: ErrorBudget, show: Quantities, { style, width }: BudgetPage): string {
  const spread = `±${show.error(budget.expandedUncertainty)} (U, k = ${budget.coverageFactor.toFixed(2)})`;
  if (budget.bias === null || budget.expectedError === null)
    return labelled('expected error', `bias not known yet, ${spread}`, width, style.yellow);
  const whole = `${show.error(budget.expectedError)} = bias ${show.signedError(budget.bias)}, and ${spread}`;
  const good = goodFor(budget);
  const tolerances = good
    ? `tolerances of ${show.tolerance(good.tenToOne)} or wider (10:1), ${show.tolerance(good.fourToOne)} at 4:1`
    : '';
  return `${labelled('expected error', whole, width, style.bold)}${labelled('good for', tolerances, width)}`;
}

/** Standard uncertainties by component, each with the profile entry it comes from, and what is left out. */
export function budgetText(budget: ErrorBudget, name: string, show: Quantities, page: BudgetPage): string {
  const { profile, style, width, shown } = page;
  const row = (title: string, size: number, rest: string) =>
    `${' '.repeat(10)}${title.padEnd(18)}${show.error(size).padStart(10)}  ${rest}\n`;
  const rows = budget.components.map(({ name: title, standardUncertainty, distribution, source }) =>
    row(
      componentTitle(title),
      standardUncertainty,
      `${distribution.padEnd(11)}  ${style.dim(`${source}, ${origins[profile.source(source)]}`)}`,
    ),
  );
  const nu = budget.degreesOfFreedom === null ? '∞' : String(Number(budget.degreesOfFreedom.toFixed(1)));
  const left = notIncludedTexts(budget.notIncluded).map((each, index) =>
    labelled(index === 0 ? 'not included' : '', each, width, style.dim),
  );
  const whole = `${rows.join('')}${row('together', budget.standardUncertainty, `ν = ${nu}`)}${left.join('')}`;
  const before = shown.get(whole);
  if (before !== undefined) return labelled('uncertainty', `as for ${before}`, width);
  shown.set(whole, name);
  return `${labelled('uncertainty', 'standard, by where it comes from', width)}${whole}`;
}

const origins = { profile: 'profile', 'built-in': 'built-in value', derived: 'derived' } as const;
