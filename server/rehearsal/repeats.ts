import type { Action } from '../analysis/actions.ts';
import { evaluate, type Scope } from '../program/evaluate.ts';
import { isNumber, type Value } from '../program/value.ts';

/** Passes still to make of each repeat that runs, by its line. */
export type PassesLeft = Map<number, number>;

/** 1 while a repeat goes on, then 0; its count is read as it begins. */
export function passAgain(
  line: number,
  { count, whenTrue }: Action & { kind: 'branch' },
  left: PassesLeft,
  scope: Scope,
): Value {
  if (!count) return 0;
  let rest = left.get(line);
  if (rest === undefined) {
    const passes = evaluate(count, scope);
    if (!isNumber(passes)) return passes;
    // A repeat that tests behind its body has already made one pass.
    rest = Math.max(0, Math.round(passes) - (whenTrue <= line ? 1 : 0));
  }
  if (rest > 0) left.set(line, rest - 1);
  else left.delete(line);
  return rest > 0 ? 1 : 0;
}

/** L of a call: how often it runs (common practice, no source). */
export function repeatsOf(call: (Action & { kind: 'call' })['call'], scope: Scope): number {
  if (call.form === 'o-word') return 1;
  const word = call.words.find(({ letter }) => letter === 'L');
  return timesOf(word ? evaluate(word.value, scope) : 1);
}

/** A count of calls; what is none counts as one. */
export function timesOf(count: Value): number {
  return isNumber(count) && count >= 1 ? Math.round(count) : 1;
}
