import { touchesOf, type Value, type Term as ValueTerm } from '../program/value.ts';
import type { Following, Term } from './model.ts';
import type { Near } from './near.ts';
import type { DatumWrite } from './record.ts';

/**
 * How a written origin follows the part that the touches met: an affine form over coordinates is a place exactly where
 * the coefficients of the coordinates add up to 1, and so do those of the origin that they are counted from. null where
 * the origin had been moved by touches before, or something enters that may be a place or none.
 */
export function followingOf(
  { write, origin, activeOffset }: DatumWrite,
  terms: readonly Term[],
): Following | null {
  const { axis, before, form } = write;
  if (typeof origin === 'number' || touchesOf(before).size > 0) return null;
  if (terms.some((term) => term.axis !== (['x', 'y', 'z'] as const)[axis])) return null;
  let share = terms.reduce((sum, { coefficient }) => sum + coefficient, 0);
  for (const { unknown, coefficient } of origin.terms) {
    if (unknown.kind !== 'given') continue;
    if (unknown.key.startsWith('g:start:')) share += coefficient;
    else if (!isOffset(unknown.key) && !isBeside(unknown.key)) return null;
  }
  const offsets = new Set(terms.flatMap(({ touch }) => touch.modes.workOffset));
  const [first] = offsets;
  const measuredIn = offsets.size === 1 && first === (activeOffset ?? first) ? (first ?? null) : null;
  return {
    form,
    share,
    across: 0,
    measuredIn,
    origin: isMachine(form) ? originIn(origin.terms, before, axis) : null,
  };
}

/** The same for an origin that is no sum: what is so for every guess. null where that differs. */
export function followingNear({ write, origin }: DatumWrite, { follows }: Near): Following | null {
  const { axis, before, form } = write;
  const [first] = follows;
  if (first === undefined || typeof origin === 'number' || touchesOf(before).size > 0) return null;
  const share = agreed(follows.map(({ along }) => along));
  const across = agreed(follows.map(({ across }) => across));
  if (share === null || across === null) return null;
  return {
    form,
    share,
    across,
    measuredIn: null,
    origin: isMachine(form) ? originIn(origin.terms, before, axis) : null,
  };
}

/** 0 or 1 where all are that, the first where none is either of the two; else null. */
function agreed(shares: readonly number[]): number | null {
  const [first = 0] = shares;
  for (const whole of [0, 1]) {
    const are = shares.filter((share) => Math.abs(share - whole) < rounding).length;
    if (are === shares.length) return whole;
    if (are > 0) return null;
  }
  return first;
}

const rounding = 1e-6;

/** Whether it wants a coordinate of the machine. */
function isMachine(form: Following['form']): boolean {
  return form === 'G10 L2' || form === 'parameter';
}

/** The origin in force that a sum holds, where it holds one whole origin or none. */
function originIn(sum: readonly ValueTerm[], before: Value, axis: number): Following['origin'] {
  if (sum.some(({ unknown }) => isBeside(unknown.key))) return 'beside';
  // A known origin may stand in a constant.
  if (typeof before === 'number') return null;
  const own = before.terms[0]?.unknown.key ?? '';
  const held = sum.filter(({ unknown }) => isOffset(unknown.key));
  const [only] = held;
  if (only === undefined) return 'none';
  if (held.length > 1 || only.coefficient !== 1) return null;
  if (only.unknown.key === own || only.unknown.key === `g:origin:${axis}:`) return 'own';
  return own.startsWith('g:input:') ? 'other' : null;
}

/** The key of what is read for an origin by a number of none. */
function isBeside(key: string): boolean {
  return key.startsWith('g:beside:');
}

/** Keys of origins: `g:input:5221:`, and those of offsets that are not known. */
function isOffset(key: string): boolean {
  const number = Number(/^g:input:(\d+):/.exec(key)?.[1] ?? Number.NaN);
  return (number >= 5201 && number < 5400) || key.startsWith('g:origin:');
}
