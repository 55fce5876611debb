import type { TouchErrorResult } from '../analysis/error.ts';
import type { Touch } from '../analysis/model.ts';
import { type BudgetPage, budgetText, verdictText } from './budgetText.ts';
import { directionName } from './direction.ts';
import type { TouchWithError } from './errorReport.ts';
import { labelled } from './labelled.ts';
import { lineName } from './lineName.ts';
import type { Quantities } from './quantities.ts';
import { spindleWords } from './spindleWords.ts';
import { printable } from './style.ts';

/** One touch: what it is, how wrong it can be and why, and where it comes to rest. */
export function touchErrorText({ touch, error, show }: TouchWithError, page: BudgetPage): string {
  const { style, width } = page;
  const feed =
    touch.feed.value === null ? 'at a feed that is not known' : `at ${show.feed(touch.feed.value)}`;
  const head = `${`${touch.line + 1}`.padStart(6)}  ${style.bold(touch.code)} ${approach(touch)} ${feed}${style.dim(whence(touch))}\n`;
  if (error === null)
    return `${head}${labelled('expected error', `not known yet: ${reason}`, width, style.yellow)}`;
  return [
    head,
    verdictText(error, show, page),
    radius(error, touch, show, width),
    stop(error, show, page),
    spindle(touch, width),
    budgetText(error, `${lineName(touch)} ${approach(touch)}`, show, page),
  ].join('');
}

const reason = 'which way it goes depends on what the text does not show.';

export function approach({ direction }: Touch): string {
  return direction === null ? directionName(direction) : `towards ${directionName(direction)}`;
}

function whence({ file, calls }: Touch): string {
  const where = file === null ? '' : `  in ${printable(file)}`;
  return calls.length === 0
    ? where
    : `${where}  called from line ${calls.map((line) => line + 1).join(', ')}`;
}

function radius(error: TouchErrorResult, touch: Touch, show: Quantities, width: number): string {
  if (touch.axis === 'z')
    return labelled('effective radius', 'none needed: the tool length, set by a touch, holds it', width);
  if (error.effectiveRadius === null) return '';
  const from = error.diameterPlace === null ? "the profile's" : `from line ${error.diameterPlace.line + 1}`;
  const used = error.diameterUsed === null ? '' : `; ${show.length(error.diameterUsed / 2)} used (${from})`;
  const text = `${show.length(error.effectiveRadius)} in this direction at this feed${used}`;
  return labelled('effective radius', text, width);
}

function spindle(touch: Touch, width: number): string {
  const words = spindleWords(touch);
  return words === null ? '' : labelled('spindle', words, width);
}

function stop(error: TouchErrorResult, show: Quantities, { profile, style, width }: BudgetPage): string {
  if (error.stoppingDistance === null) return '';
  const { overtravelSafetyFactor } = profile;
  const allowed = error.overtravelLimit / overtravelSafetyFactor;
  const limit = `overtravel ${show.length(error.overtravelLimit)} ÷ ${overtravelSafetyFactor}`;
  const tooFar = error.stoppingDistance > allowed;
  const text = `${show.length(error.stoppingDistance)} after the trip${tooFar ? ': too far' : ''}; ${show.length(allowed)} allowed (${limit})`;
  return labelled('stops', text, width, tooFar ? style.red : undefined);
}
