import { touchesThatSee, type UnseenOrder } from '../probe/calibration/observability.ts';
import type { ReferenceKind } from '../probe/calibration/touches.ts';
import { capitalised, countWord, listed } from './countWords.ts';

/** What was touched, and how. */
interface Touched {
  readonly touches: number;
  /** Angles that the spindle stood at. */
  readonly spindles: number;
  readonly reference: ReferenceKind;
}

/** Shares under this are not worth a word. */
const noticeable = 0.05;

/**
 * Where the lobes of an order go that the touches cannot tell apart, from the numbers of their design: "Four touches turn
 * three-lobed pre-travel into a shift of the ring's centre by its full size; seven or more, evenly spaced, tell it apart."
 */
export function unseenOrderText(unseen: UnseenOrder, { touches, spindles, reference }: Touched): string {
  const who = `${capitalised(countWord(touches))} touches${spindles > 1 ? ` at ${countWord(spindles)} spindle angles` : ''}`;
  const goes = [
    ...part(unseen.intoCentre, `a shift of the ${reference}'s centre`),
    ...part(unseen.intoRadius, 'a change of the effective radius'),
    ...(unseen.intoLatency > 1e-9 ? ['a change of the latency'] : []),
    ...unseen.intoOrders.flatMap(({ order, share }) => part(share, orderName(order))),
  ];
  const turns =
    goes.length === 0
      ? `${who} cannot solve for ${orderName(unseen.order)}`
      : `${who} turn ${orderName(unseen.order)} into ${listed(goes)}`;
  return `${turns}${rest(unseen)}${cure(unseen, spindles)}.`;
}

/** "three-lobed pre-travel"; order 1 is the run-out of the tip. */
export function orderName(order: number): string {
  return order === 1 ? 'run-out of the tip' : `${countWord(order)}-lobed pre-travel`;
}

export function changesRadius(unseen: UnseenOrder): boolean {
  return unseen.intoRadius >= noticeable;
}

function part(share: number, name: string): string[] {
  return share < noticeable ? [] : [`${name} ${sizeText(share)}`];
}

function sizeText(share: number): string {
  if (share >= 0.95 && share <= 1.05) return 'by its full size';
  return share > 1.05
    ? `by up to ${share.toFixed(1)} times its size`
    : `by up to ${Math.round(share * 100)} % of its size`;
}

function rest({ intoResidual: { most, least } }: UnseenOrder): string {
  if (most < noticeable) return '';
  return least < noticeable
    ? '; only one of its two phases shows, in the residuals'
    : '; the rest of it stays in the residuals';
}

function cure({ order }: UnseenOrder, spindles: number): string {
  if (order === 1) return '; touches at the spindle angles 0° and 180° tell it apart';
  const from = touchesThatSee(order);
  if (from === null) return '';
  return `; ${countWord(from)} or more, evenly spaced${spindles > 1 ? ' at each angle' : ''}, tell it apart`;
}
