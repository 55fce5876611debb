import type { Modes } from '../analysis/model.ts';
import { type Code, conflicting } from '../program/codes.ts';
import type { DialectName } from '../syntax/dialect.ts';
import { isTouchCode } from './blockTokens.ts';

/**
 * Whether a code may be written beside others of its block, in the modes that hold on every path (null: not known).
 * NISTIR 6556, 3.3.5 and 3.5.9 (G38.2); what compensation forbids is among the errors that 3.5 lists with G17, G28, G41,
 * G54 and the cycles (from memory).
 */
export function isAllowed(
  code: Code,
  beside: readonly Code[],
  modes: Modes | null,
  dialect: DialectName,
): boolean {
  if (beside.some((other) => conflicting(code, other, dialect))) return false;
  if (modes === null) return true;
  const compensated = every(modes.cutterCompensation, /^G4[12]/);
  const byTime = every(modes.feedMode, /^G93$/);
  if (isTouchCode(code.code, dialect)) return !compensated && !byTime;
  if (/^G(73|74|8[1-9])$/.test(code.code)) return !compensated && !byTime;
  if (!compensated) return true;
  return !(
    code.group === 'plane' ||
    code.group === 'work offset' ||
    /^G(28|30|41|42)(\.1)?$/.test(code.code)
  );
}

function every(group: readonly string[], wanted: RegExp): boolean {
  return group.length > 0 && group.every((name) => wanted.test(name));
}
