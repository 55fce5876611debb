import { absolute, type Expression, half, length, minus, plus } from './expression.ts';
import type { Motion } from './motion.ts';

/** How many terms a line of the program holds. */
const atOnce = 2;

/** The sum of many terms as a variable, line by line: no dialect reads a line of any length. */
export function summed(motion: Motion, name: string, terms: readonly Expression[]): Expression {
  const first = terms.slice(0, atOnce).reduce(plus, length(0));
  let sum = motion.set(name, first);
  for (let at = atOnce; at < terms.length; at += atOnce)
    sum = motion.set(name, terms.slice(at, at + atOnce).reduce(plus, sum));
  return sum;
}

export function largestOf(motion: Motion, values: readonly Expression[]): Expression {
  return extremeOf(motion, 'largest', values, plus);
}

export function smallestOf(motion: Motion, values: readonly Expression[]): Expression {
  return extremeOf(motion, 'smallest', values, minus);
}

/** The larger of two is half of their sum and their distance: neither dialect has a word for it. */
function extremeOf(
  motion: Motion,
  name: string,
  [first, ...others]: readonly Expression[],
  withDistance: (sum: Expression, distance: Expression) => Expression,
): Expression {
  let extreme = motion.set(name, first ?? length(0));
  for (const value of others)
    extreme = motion.set(name, half(withDistance(plus(extreme, value), absolute(minus(extreme, value)))));
  return extreme;
}
