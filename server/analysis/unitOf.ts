import type { Unknown, Value } from '../program/value.ts';

/** What a value derived from touches is counted in. */
export type ResultUnit = 'mm' | 'degrees';

/**
 * Degrees for what an inverse function or a rotary axis gives, for its sums and multiples; lengths else: of a quotient by a
 * bare number nobody can tell whether that is a length.
 */
export function unitOf(value: Value): ResultUnit {
  return isAngle(value) ? 'degrees' : 'mm';
}

function isAngle(value: Value): boolean {
  return typeof value !== 'number' && value.terms.some(({ unknown }) => isAngleItself(unknown));
}

function isAngleItself(unknown: Unknown): boolean {
  if (unknown.kind === 'latched' || unknown.kind === 'stopped') return unknown.axis >= 3 && unknown.axis <= 5;
  if (unknown.kind !== 'computed') return false;
  const [a = 0, b = 0] = unknown.operands;
  switch (unknown.operator) {
    case 'ATAN':
    case 'ASIN':
    case 'ACOS':
      return true;
    case '*':
      return isAngle(a) !== isAngle(b);
    case '/':
      return isAngle(a) && !isAngle(b);
    case '+':
    case '-':
    case 'ABS':
    case 'FIX':
    case 'FUP':
    case 'ROUND':
    case 'MOD':
      return isAngle(a) || isAngle(b);
    default:
      return false;
  }
}
