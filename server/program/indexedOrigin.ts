import type { Scope } from './evaluate.ts';
import { offsetOf } from './parameters.ts';
import { given, type Value } from './value.ts';
import { ownOrigin } from './workZero.ts';

/**
 * The origin in force, read by a computed number: `#[5201+20*[#4014-53]]` of the macro family, `#[5201+20*#5220]` of
 * rs274ngc, where neither is a plain number. A value of its own where the number is the control's, and of no origin
 * whichever work offset is in force. null where the number is none of these.
 */
export function originByIndex(index: Value, scope: Scope): Value | null {
  const numbers = perSystem(index, scope);
  if (numbers === null) return null;
  const [first = 0] = numbers;
  const axis = first - 5221;
  if (axis >= 0 && axis < 9 && numbers.every((number, k) => number === first + 20 * k))
    return ownOrigin(axis, scope);
  return numbers.every((number) => isBesideOrigins(number, scope))
    ? given(`beside:${first}`, 'a parameter of no work offset')
    : null;
}

/** Whether a P that is computed from the work offset in force is the number of none, whichever that is. */
export function isNoSystem(p: Value, scope: Scope): boolean {
  const numbers = perSystem(p, scope);
  return (
    numbers?.every((number) => number < 0 || number > numbers.length || !Number.isInteger(number)) ?? false
  );
}

/** What a sum over the number of the work offset in force is for each that may be: G54, G55 and so on. */
function perSystem(sum: Value, { dialect }: Scope): readonly number[] | null {
  if (typeof sum === 'number' || sum.terms.length !== 1) return null;
  const [term] = sum.terms;
  const first = term && firstNumber(term.unknown.key);
  if (!term || first === null || first === undefined) return null;
  const count = dialect === 'macro' ? 6 : 9;
  return Array.from({ length: count }, (_, k) => sum.constant + term.coefficient * (first + k));
}

/** A number among those that the control keeps, but no origin, common offset or shift. */
function isBesideOrigins(number: number, { dialect }: Scope): boolean {
  if (!Number.isInteger(number) || number < 5000 || number >= 6000) return false;
  return offsetOf(number, dialect) === null && (number < 5201 || number >= 5221);
}

/** How G54 is counted by the number of the work offset in force that this unknown stands for. */
function firstNumber(key: string): number | null {
  if (key.startsWith('g:modal:workOffset:')) return 54;
  return key.startsWith('g:active-system:') ? 1 : null;
}
