import type { Verdict } from '../probe/decision.ts';
import type { Improvement } from '../probe/improvement.ts';
import type { BudgetPage } from './budgetText.ts';
import { notIncludedText } from './budgetWords.ts';
import { changeText } from './changeWords.ts';
import type { DatumAnswers } from './errorReport.ts';
import { labelled } from './labelled.ts';
import type { Quantities } from './quantities.ts';

/** Whether a tolerance can be decided, where values are accepted, and what would have to change. */
export function decisionText(
  decided: NonNullable<DatumAnswers['decided']>,
  show: Quantities,
  { style, width }: BudgetPage,
): string {
  const { decision, outlook, ratio } = decided;
  const paint = {
    'ten-to-one': style.green,
    'four-to-one': style.green,
    'guard-band': style.yellow,
    cannot: style.red,
  };
  const times = decision.ratio === null ? '' : `, ${ratioText(decision.ratio)} times the expected error`;
  const verdict = `±${show.error(decision.tolerance)}: ${verdicts[decision.verdict]}${times}`;
  const lines = [
    labelled('tolerance', verdict, width, paint[decision.verdict]),
    ...acceptance(decided, show, width),
  ];
  if (outlook.decides) return lines.join('');
  const options = outlook.options.map((option) => optionText(option, ratio, show));
  const offered = options.length === 0 ? ['nothing that was tried makes it better'] : options;
  lines.push(...offered.map((text, index) => labelled(index === 0 ? `for ${ratio}:1` : '', text, width)));
  return [...lines, ...together(decided, show, width), ...floor(decided, show, width)].join('');
}

const verdicts: Readonly<Record<Verdict, string>> = {
  'ten-to-one': 'can be decided at 10:1',
  'four-to-one': 'can be decided at 4:1',
  'guard-band': 'can only be decided with a guard band',
  cannot: 'cannot be decided',
};

/** Cut, not rounded: 9.96 is not ten to one. */
function ratioText(ratio: number): string {
  if (ratio < 0.1) return 'less than 0.1';
  return String(Math.floor(ratio * 10 + 1e-6) / 10);
}

function acceptance(
  { decision }: NonNullable<DatumAnswers['decided']>,
  show: Quantities,
  width: number,
): string[] {
  const { acceptance: corrected, acceptanceUncorrected: raw, guardBand } = decision;
  if (corrected === null)
    return [labelled('accept', `nothing: the guard band ${show.error(guardBand)} (U) fills it`, width)];
  const asIs = raw === null ? 'nothing as the program has it' : `±${show.error(raw)} as the program has it`;
  const text = `within ±${show.error(corrected)} once the bias is off (guard band ${show.error(guardBand)} = U), ${asIs}`;
  return [labelled('accept', text, width)];
}

function optionText(
  { changes, expectedError, decides }: Improvement,
  ratio: number,
  show: Quantities,
): string {
  const what = changes.map((change) => changeText(change, show)).join('; ');
  return `${what}: ${show.error(expectedError)}${decides ? `, enough for ${ratio}:1` : ''}`;
}

function together(
  { outlook, ratio }: NonNullable<DatumAnswers['decided']>,
  show: Quantities,
  width: number,
): string[] {
  const { together: all } = outlook;
  if (all === null) return [labelled('together', `not even all of it makes ${ratio}:1`, width)];
  return all.changes.length < 2 ? [] : [labelled('together', optionText(all, ratio, show), width)];
}

function floor({ outlook }: NonNullable<DatumAnswers['decided']>, show: Quantities, width: number): string[] {
  const { blocks, expectedError, positioningNeeded } = outlook.floor;
  if (!blocks) return [];
  const text = `positioning alone makes ±${show.error(expectedError)} of it; under ±${show.error(positioningNeeded)} (k = 2) is needed (machine.positioningUncertainty)`;
  return [labelled('in the way', text, width)];
}

/** What drawing says beside the linear budget. */
export function drawnText(
  drawn: NonNullable<DatumAnswers['drawn']>,
  show: Quantities,
  { style, width }: BudgetPage,
): string {
  if ('notDrawn' in drawn)
    return labelled('drawn', `not drawn: ${notIncludedText(drawn.notDrawn)}`, width, style.yellow);
  const { result, agreement, seed } = drawn;
  const [low, high] = result.symmetricInterval;
  const unstable = result.stable === false ? ', not stable yet' : '';
  const whole = `mean ${show.signedError(result.mean)}, u ${show.error(result.standardUncertainty)}, 95 % from ${show.signedError(low)} to ${show.signedError(high)} (${result.trials} trials, seed ${seed}${unstable})`;
  const worst = Math.abs(agreement.low) > Math.abs(agreement.high) ? agreement.low : agreement.high;
  const beside = agreement.agrees
    ? 'the linear ±U is within the numerical tolerance of it'
    : `the linear ±U is ${worst < 0 ? 'wider' : 'narrower'} by up to ${show.error(worst)}: not every part is normal`;
  return labelled('drawn', `${whole}; ${beside}`, width);
}
