import type { Fault } from '../rehearsal/faults.ts';
import { type OutcomeName, outcomeNames } from '../rehearsal/outcome.ts';
import type { Rehearsal } from '../rehearsal/rehearse.ts';

/** Said under every rehearsal. */
export const proofFirst =
  'Only what is listed above was tried, on the part and in the machine of the setup. Prove the program above the part first, single block, reduced rapids, a hand on the stop.';

/** Why a rehearsal says nothing about what its program measures; '' where it does. */
export function untried({ undisturbed: { record } }: Pick<Rehearsal, 'undisturbed'>): string {
  if (record.touches.length === 0) return 'the program made no touch, so nothing that it measures was tried';
  if (record.touches.some(({ tripped }) => tripped)) return '';
  return 'no touch of the program met anything, so nothing that it measures was tried';
}

export interface FaultMatrix {
  /** The columns: outcomes that there were, worst first. */
  readonly outcomes: readonly OutcomeName[];
  /** A row a fault; how many of its forms and touches ended in each outcome, in the order of the columns. */
  readonly rows: readonly { readonly fault: string; readonly counts: readonly number[] }[];
}

export function faultMatrix({ faults }: Pick<Rehearsal, 'faults'>): FaultMatrix {
  const outcomes = outcomeNames.filter((name) => faults.some(({ outcome }) => outcome.name === name));
  const names = [...new Set(faults.map(({ fault }) => fault.name))];
  const rows = names.map((fault) => {
    const runs = faults.filter((run) => run.fault.name === fault);
    const counts = outcomes.map((name) => runs.filter(({ outcome }) => outcome.name === name).length);
    return { fault, counts };
  });
  return { outcomes, rows };
}

/** `false-trip (touch 7)`. */
export function faultTitle({ name, detail, touch }: Pick<Fault, 'name' | 'detail' | 'touch'>): string {
  const which = [detail, touch === null ? '' : `touch ${touch}`].filter(Boolean).join(', ');
  return which === '' ? name : `${name} (${which})`;
}
