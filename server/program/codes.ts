import type { DialectName } from '../syntax/dialect.ts';
import { codeTable } from './codeTable.ts';

/** What a G or M code is, in the dialects that have it. */
export interface Code {
  /** `G38.2`, `M3`. */
  readonly code: string;
  /** Name of its modal group; 'non-modal' for one-shot codes; '' where nothing can be said. */
  readonly group: string;
  readonly title: string;
  readonly help: string;
  readonly dialects: readonly DialectName[];
}

/** The code that a G or M word with this value means, or null where the dialect has no such code. */
export function codeOf(letter: 'G' | 'M', value: number, dialect: DialectName): Code | null {
  const name = codeName(letter, value);
  if (name === null) return null;
  return byDialect[dialect].get(name) ?? openRange(letter, value, name, dialect);
}

/**
 * `G38.2` for 38.2; null for what can be no code. Ten times a G number and an M number must be whole within 0.0001
 * (NISTIR 6556, 3.3.2.1).
 */
export function codeName(letter: 'G' | 'M', value: number): string | null {
  const factor = letter === 'G' ? 10 : 1;
  const whole = Math.round(value * factor);
  if (!Number.isFinite(value) || whole < 0 || Math.abs(value * factor - whole) > closeToWhole) return null;
  return `${letter}${whole / factor}`;
}

/** With room for the rounding of the product. */
const closeToWhole = 1e-4 + 1e-9;

/** Every code of the dialect that the table describes; the ranges left open to users and builders are not in it. */
export function codesOf(dialect: DialectName): readonly Code[] {
  return lists[dialect];
}

/**
 * May the two codes not stand in one block? Two of one modal group: NISTIR 6556, 3.3.5 and table 4. The macro family
 * lets one-shot codes stand together and takes coolant codes one after the other (common practice, no source).
 */
export function conflicting(a: Code, b: Code, dialect: DialectName): boolean {
  if (a.group === '' || a.group !== b.group) return false;
  if (dialect === 'macro' && (a.group === 'non-modal' || a.group === 'coolant')) return false;
  return a.code !== b.code || dialect === 'rs274ngc';
}

/**
 * Both use the axis words of their block: G10, G28, G30 or G92 beside a code of the motion group other than G80 (NISTIR
 * 6556, 3.4). The macro family runs them one after the other.
 */
export function bothUseAxes(a: Code, b: Code, dialect: DialectName): boolean {
  if (dialect !== 'rs274ngc') return false;
  const moves = (code: Code) => code.group === 'motion' && code.code !== 'G80';
  return (axisTakers.has(a.code) && moves(b)) || (axisTakers.has(b.code) && moves(a));
}

const axisTakers = new Set(['G10', 'G28', 'G30', 'G92']);

/** Greatest number of M words in a block (NISTIR 6556, 3.3.5); null: any number. */
export const mostMWords: Readonly<Record<DialectName, number | null>> = { rs274ngc: 4, macro: null };

const lists: Readonly<Record<DialectName, readonly Code[]>> = {
  rs274ngc: codeTable.filter((code) => code.dialects.includes('rs274ngc')),
  macro: codeTable.filter((code) => code.dialects.includes('macro')),
};

const byDialect: Readonly<Record<DialectName, ReadonlyMap<string, Code>>> = {
  rs274ngc: new Map(lists.rs274ngc.map((code) => [code.code, code])),
  macro: new Map(lists.macro.map((code) => [code.code, code])),
};

/** Numbers that users and machine builders give a meaning of their own (common practice, no source). */
function openRange(letter: 'G' | 'M', value: number, name: string, dialect: DialectName): Code | null {
  if (!Number.isInteger(Math.round(value * 10) / 10)) return null;
  const [least, greatest] = openNumbers[dialect][letter];
  if (value < least || value > greatest) return null;
  return {
    code: name,
    group: '',
    title: dialect === 'rs274ngc' ? 'user-defined code' : 'machine builder’s code',
    help: 'Its meaning is set on each machine; the machine builder’s manual has the last word.',
    dialects: [dialect],
  };
}

const openNumbers: Readonly<Record<DialectName, Record<'G' | 'M', readonly [number, number]>>> = {
  rs274ngc: { G: [Number.POSITIVE_INFINITY, 0], M: [100, 199] },
  macro: { G: [100, 399], M: [10, 999] },
};
