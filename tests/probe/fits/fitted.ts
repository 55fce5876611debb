import type { Refusal } from '../../../server/probe/fits/fit.ts';

/** What was fitted; a refusal fails the test with its words. */
export function fitted<Fit extends object>(result: Fit | Refusal): Fit {
  if ('refusal' in result) throw new Error(result.refusal);
  return result;
}

/** The words of a refusal; a fit fails the test. */
export function refusal(result: object | Refusal): string {
  if (!('refusal' in result)) throw new Error('it was fitted');
  return (result as Refusal).refusal;
}
