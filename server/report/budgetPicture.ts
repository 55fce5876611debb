import type { Component, ErrorBudget } from '../probe/derivedError.ts';
import { componentTitle, notIncludedTexts } from './budgetWords.ts';
import { framed, inSvg, pictureSheet } from './pictureStyle.ts';
import { type Quantities, quantities } from './quantities.ts';

/**
 * An uncertainty budget as bars, SVG, 380 wide: each component's standard uncertainty and its share of the variance, largest
 * first, and what they make together. In both themes like the picture of the radius.
 */
export function budgetPicture(budget: ErrorBudget, units: 'mm' | 'inch' = 'mm'): string {
  const show = quantities(units);
  const parts = [...budget.components].sort(
    (one, other) => other.standardUncertainty - one.standardUncertainty,
  );
  const rows = parts.map((part, index) => componentRow(part, budget, show, index));
  const end = top + parts.length * rowHeight;
  const gaps = budget.notIncluded.length;
  return framed(
    {
      name: 'budget-picture',
      width,
      height: end + 2 * rowHeight + (gaps === 0 ? 6 : rowHeight + 2),
      title: 'Uncertainty budget: standard uncertainties by where they come from',
      description: describe(parts, budget, show),
      sheet: pictureSheet('budget-picture'),
    },
    [
      ...rows.flat(),
      `<path class="axis" d="M${left} ${top - 4}V${end + rowHeight}"/>`,
      ...bar('together', budget.standardUncertainty, budget, end, 'mark'),
      label(
        'marked',
        left + barLength(budget.standardUncertainty, budget) + 5,
        end,
        show.error(budget.standardUncertainty),
      ),
      `<text class="small" x="${left}" y="${end + rowHeight + 13}">U = ±${inSvg(show.error(budget.expandedUncertainty))} (k = ${budget.coverageFactor.toFixed(2)}, 95 %)</text>`,
      ...(gaps === 0 ? [] : [gapsText(gaps, end)]),
    ],
  );
}

const width = 380;
const left = 122;
const longest = 150;
const rowHeight = 17;
const top = 14;

function componentRow(part: Component, budget: ErrorBudget, show: Quantities, index: number): string[] {
  const y = top + index * rowHeight;
  const value = `${show.error(part.standardUncertainty)}, ${share(part, budget)}`;
  return [
    ...bar(componentTitle(part.name), part.standardUncertainty, budget, y, 'curve'),
    label('', left + barLength(part.standardUncertainty, budget) + 5, y, value),
  ];
}

function bar(name: string, size: number, budget: ErrorBudget, y: number, kind: 'curve' | 'mark'): string[] {
  const length = barLength(size, budget).toFixed(1);
  return [
    `<text x="${left - 6}" y="${y + 9}" text-anchor="end">${inSvg(name)}</text>`,
    `<rect class="${kind}" x="${left}" y="${y + 1}" width="${length}" height="${rowHeight - 7}"/>`,
  ];
}

function label(kind: string, x: number, y: number, text: string): string {
  return `<text${kind === '' ? '' : ` class="${kind}"`} x="${x.toFixed(1)}" y="${y + 9}">${inSvg(text)}</text>`;
}

function barLength(size: number, budget: ErrorBudget): number {
  return budget.standardUncertainty === 0 ? 0 : (longest * size) / budget.standardUncertainty;
}

/** Of the variance. */
function share({ standardUncertainty }: Component, budget: ErrorBudget): string {
  const percent = 100 * (standardUncertainty / budget.standardUncertainty) ** 2;
  return percent < 1 ? '<1 %' : `${percent.toFixed(0)} %`;
}

function gapsText(count: number, end: number): string {
  const text = `not included: ${count} ${count === 1 ? 'part' : 'parts'} that nothing states`;
  return `<text class="small" x="${left}" y="${end + 2 * rowHeight + 11}">${text}</text>`;
}

function describe(parts: readonly Component[], budget: ErrorBudget, show: Quantities): string {
  const listed = parts.map(
    (part) =>
      `${componentTitle(part.name)} ${show.error(part.standardUncertainty)} (${share(part, budget)} of the variance)`,
  );
  const all = listed.length === 0 ? 'No component is over 0' : listed.join(', ');
  const left = notIncludedTexts(budget.notIncluded);
  const gaps = left.length === 0 ? '' : ` Not included: ${left.join('; ')}.`;
  return `${all}; together ${show.error(budget.standardUncertainty)}, U ±${show.error(budget.expandedUncertainty)}.${gaps}`;
}
