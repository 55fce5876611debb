import type { TableProblem } from '../probe/calibration/readTable.ts';
import { linesText } from './countWords.ts';

export interface Faults {
  readonly faults: readonly string[];
}

/** The touches of a text that the person did not leave out, or what is wrong with it. */
export function touchesOf<Touch extends { readonly row: number }>(
  name: string,
  read: { readonly touches: readonly Touch[] } | { readonly problems: readonly TableProblem[] },
  without: readonly number[],
): { readonly touches: readonly Touch[] } | Faults {
  if ('problems' in read)
    return {
      faults: read.problems.map(({ line, message }) => `${name}${line === 0 ? '' : `:${line}`}: ${message}`),
    };
  const missing = without.filter((row) => !read.touches.some((touch) => touch.row === row));
  if (missing.length > 0)
    return {
      faults: [`--without ${missing.join(',')}: no touch stands on ${linesText(missing)} of ${name}.`],
    };
  return { touches: read.touches.filter(({ row }) => !without.includes(row)) };
}
