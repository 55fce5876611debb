import type { ErrorBudget } from '../probe/derivedError.ts';
import { goodFor } from '../probe/goodFor.ts';
import type { Quantities } from '../report/quantities.ts';
import { type Part, paragraph } from './richText.ts';

/** Which tolerances a measurement decides, by each rule; nothing where its bias is not known. */
export function goodForParts(error: ErrorBudget, show: Quantities): Part[] {
  const tolerances = goodFor(error);
  if (tolerances === null || error.expectedError === null) return [];
  const { tenToOne, fourToOne } = tolerances;
  const guarded = `over ${show.tolerance(error.expectedError)} inside of a guard band of U`;
  return [
    paragraph(
      `Good for tolerances of ${show.tolerance(tenToOne)} or wider (10:1); ${show.tolerance(fourToOne)} at 4:1; ${guarded}.`,
    ),
  ];
}
