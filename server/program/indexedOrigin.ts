import type { Scope } from './evaluate.ts';
import type { Value } from './value.ts';
import { ownOrigin } from './workZero.ts';

/**
 * The origin in force, read by a computed number: `#[5201+20*[#4014-53]]` of the macro family, `#[5201+20*#5220]` of
 * rs274ngc, where neither is a plain number. null where the number is none of these.
 */
export function originByIndex(index: Value, scope: Scope): Value | null {
  if (typeof index === 'number' || index.terms.length !== 1) return null;
  const [term] = index.terms;
  if (term?.coefficient !== 20) return null;
  const first = firstNumber(term.unknown.key);
  if (first === null) return null;
  const axis = index.constant + 20 * first - 5221;
  return Number.isInteger(axis) && axis >= 0 && axis < 9 ? ownOrigin(axis, scope) : null;
}

/** How G54 is counted by the number of the work offset in force that this unknown stands for. */
function firstNumber(key: string): number | null {
  if (key.startsWith('g:modal:workOffset:')) return 54;
  return key.startsWith('g:active-system:') ? 1 : null;
}
