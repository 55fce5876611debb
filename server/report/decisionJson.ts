import type { Improvement } from '../probe/improvement.ts';
import { changeJson } from './changeWords.ts';
import type { DatumAnswers } from './errorReport.ts';

/** Keys beyond the contract, there only where they were asked for; mm, feeds in mm/min. */
export function answersJson({ decided, drawn }: DatumAnswers): object {
  return {
    ...(decided === null ? {} : { decision: decidedJson(decided) }),
    ...(drawn === null ? {} : { monteCarlo: drawnJson(drawn) }),
  };
}

function decidedJson({ decision, outlook, ratio }: NonNullable<DatumAnswers['decided']>): object {
  const { positioningNeeded } = outlook.floor;
  return {
    ...decision,
    ratioWanted: ratio,
    decides: outlook.decides,
    options: outlook.options.map(improvementJson),
    together: outlook.together && improvementJson(outlook.together),
    floor: {
      ...outlook.floor,
      positioningNeeded: Number.isFinite(positioningNeeded) ? positioningNeeded : null,
    },
  };
}

function improvementJson({ changes, ...rest }: Improvement): object {
  return { changes: changes.map(changeJson), ...rest };
}

function drawnJson(drawn: NonNullable<DatumAnswers['drawn']>): object {
  if ('notDrawn' in drawn) return drawn;
  const { seed, result, agreement } = drawn;
  return { seed, ...result, agreesWithLinear: agreement.agrees };
}
