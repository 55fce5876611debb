import type { Change } from '../probe/improvementChange.ts';
import type { Quantities } from './quantities.ts';

/** What to do, as a piece of a sentence that begins small. */
export function changeText(change: Change, show: Quantities): string {
  switch (change.kind) {
    case 'compensation':
      return change.diameterCoefficient === 0
        ? 'leave the tip diameter out of it'
        : `compensate with ${Number(change.diameterCoefficient.toFixed(4))} × the effective diameter ${show.length(change.diameter)}`.replace(
            '-',
            '−',
          );
    case 'latched':
      return 'use the latched position, not where the axis stopped';
    case 'diameter':
      return `put the effective diameter ${show.length(change.diameter)} into the program`;
    case 'correction':
      return `take off the known bias of ${show.signedError(change.bias)}`;
    case 'feed':
      return `touch at ${show.feed(change.speed * 60)}`;
    case 'touches':
      return `touch ${change.count} times in each place and use the mean`;
    case 'reversal':
      return 'touch at 0° and at 180° of the spindle and use the mean';
    case 'calibration':
      return `calibrate with ${change.touches} touches on a ring known to ±${show.error(change.referenceUncertainty)}, use its diameter and take off the lobes`;
    case 'stylus':
      return `hang in a stylus of ${show.length(change.stylus.length)}, stem ${show.length(change.stylus.stemDiameter)} of ${change.stylus.material.replace('-', ' ')}, and calibrate it (by the trip model)`;
    case 'machine':
      return change.positioningUncertainty === 0
        ? 'have the machine position without error'
        : `have the machine position within ±${show.error(change.positioningUncertainty)} (k = 2)`;
  }
}

/** For other programs: mm, and feeds in mm/min. */
export function changeJson(change: Change): object {
  if (change.kind !== 'feed') return change;
  return { kind: change.kind, feed: change.speed * 60 };
}
