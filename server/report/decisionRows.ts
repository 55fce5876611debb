import type { Decision, Verdict } from '../probe/decision.ts';
import type { Improvement } from '../probe/improvement.ts';
import { notIncludedText } from './budgetWords.ts';
import { changeText } from './changeWords.ts';
import type { DatumAnswers } from './errorReport.ts';
import type { Quantities } from './quantities.ts';
import { type Row, row, rowsUnder, type Tone } from './sheet.ts';

/** What was asked about it, answered. */
export function answerRows({ decided, drawn }: DatumAnswers, show: Quantities): Row[] {
  return [
    ...(decided === null ? [] : decisionRows(decided, show)),
    ...(drawn === null ? [] : [drawnRow(drawn, show)]),
  ];
}

/** Whether a tolerance can be decided, where values are accepted, and what would have to change. */
function decisionRows(decided: Decided, show: Quantities): Row[] {
  const { decision, outlook, ratio } = decided;
  const times = decision.ratio === null ? '' : `, ${ratioText(decision.ratio)} times the expected error`;
  const verdict = `±${show.error(decision.tolerance)}: ${verdicts[decision.verdict]}${times}`;
  const rows = [
    row('tolerance', verdict, tones[decision.verdict]),
    row('accept', acceptanceText(decision, show)),
  ];
  if (outlook.decides) return rows;
  const options = outlook.options.map((option) => optionText(option, ratio, show));
  const offered = options.length === 0 ? ['nothing that was tried makes it better'] : options;
  return [
    ...rows,
    ...rowsUnder(`for ${ratio}:1`, offered),
    ...togetherRows(decided, show),
    ...floorRows(decided, show),
  ];
}

type Decided = NonNullable<DatumAnswers['decided']>;

const tones: Readonly<Record<Verdict, Tone>> = {
  'ten-to-one': 'good',
  'four-to-one': 'good',
  'guard-band': 'warning',
  cannot: 'error',
};

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

function acceptanceText(
  { acceptance: corrected, acceptanceUncorrected: raw, guardBand }: Decision,
  show: Quantities,
): string {
  if (corrected === null) return `nothing: the guard band ${show.error(guardBand)} (U) fills it`;
  const asIs = raw === null ? 'nothing as the program has it' : `±${show.error(raw)} as the program has it`;
  return `within ±${show.error(corrected)} once the bias is off (guard band ${show.error(guardBand)} = U), ${asIs}`;
}

function optionText(
  { changes, expectedError, decides }: Improvement,
  ratio: number,
  show: Quantities,
): string {
  const what = changes.map((change) => changeText(change, show)).join('; ');
  return `${what}: ${show.error(expectedError)}${decides ? `, enough for ${ratio}:1` : ''}`;
}

function togetherRows({ outlook, ratio }: Decided, show: Quantities): Row[] {
  const { together } = outlook;
  if (together === null) return [row('together', `not even all of it makes ${ratio}:1`)];
  return together.changes.length < 2 ? [] : [row('together', optionText(together, ratio, show))];
}

function floorRows({ outlook }: Decided, show: Quantities): Row[] {
  const { blocks, expectedError, positioningNeeded } = outlook.floor;
  if (!blocks) return [];
  const text = `positioning alone makes ±${show.error(expectedError)} of it; under ±${show.error(positioningNeeded)} (k = 2) is needed (machine.positioningUncertainty)`;
  return [row('in the way', text)];
}

/** What drawing says beside the linear budget. */
function drawnRow(drawn: NonNullable<DatumAnswers['drawn']>, show: Quantities): Row {
  if ('notDrawn' in drawn) return row('drawn', `not drawn: ${notIncludedText(drawn.notDrawn)}`, 'warning');
  const { result, agreement, seed } = drawn;
  const [low, high] = result.symmetricInterval;
  const unstable = result.stable === false ? ', not stable yet' : '';
  const whole = `mean ${show.signedError(result.mean)}, u ${show.error(result.standardUncertainty)}, 95 % from ${show.signedError(low)} to ${show.signedError(high)} (${result.trials} trials, seed ${seed}${unstable})`;
  const worst = Math.abs(agreement.low) > Math.abs(agreement.high) ? agreement.low : agreement.high;
  const beside = agreement.agrees
    ? 'the linear ±U is within the numerical tolerance of it'
    : `the linear ±U is ${worst < 0 ? 'wider' : 'narrower'} by up to ${show.error(worst)}: not every part is normal`;
  return row('drawn', `${whole}; ${beside}`);
}
