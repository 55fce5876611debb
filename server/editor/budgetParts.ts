import type { ErrorBudget } from '../probe/derivedError.ts';
import type { Profile } from '../profile/profile.ts';
import { budgetPicture } from '../report/budgetPicture.ts';
import { componentTitle, notIncludedTexts } from '../report/budgetWords.ts';
import type { Quantities } from '../report/quantities.ts';
import { code, type Part, paragraph } from './richText.ts';

/** The uncertainty budget, component by component, and what is not in it. */
export function budgetParts(budget: ErrorBudget, profile: Profile, show: Quantities): Part[] {
  const rows = budget.components.map((component) => [
    componentTitle(component.name),
    show.error(component.standardUncertainty),
    provenance(component.source, profile),
  ]);
  const nu = budget.degreesOfFreedom === null ? '∞' : String(Number(budget.degreesOfFreedom.toFixed(1)));
  rows.push(['**combined**', `**${show.error(budget.standardUncertainty)}**`, `ν = ${nu}`]);
  rows.push([
    '**U**',
    `**±${show.error(budget.expandedUncertainty)}**`,
    `k = ${budget.coverageFactor.toFixed(2)}, 95 %`,
  ]);
  const parts: Part[] = [
    {
      kind: 'picture',
      svg: budgetPicture(budget, show.units),
      alt: 'Standard uncertainties as bars, as in the table',
    },
    { kind: 'table', head: ['standard uncertainty', 'u', 'from'], rows, right: [1] },
  ];
  const [gap, ...gaps] = notIncludedTexts(budget.notIncluded);
  if (gap !== undefined && gaps.length === 0) parts.push(paragraph(`Not included: ${gap}.`));
  else if (gap !== undefined) parts.push(paragraph('Not included:'), { kind: 'list', items: [gap, ...gaps] });
  if (!budget.calibrated) {
    parts.push(
      paragraph(
        '**Predicted, not calibrated.** Only the stem’s bending is in the prediction: real pre-travel is commonly 1.3 to 2 times it. Calibrate on a ring before you rely on these numbers.',
      ),
    );
  }
  return parts;
}

/** A profile key and whether the profile states it. */
export function provenance(key: string, profile: Profile): string {
  const names = { profile: 'profile', 'built-in': 'built-in value', derived: 'derived' } as const;
  return `${code(key)}, ${names[profile.source(key)]}`;
}
