import type { DialectName } from '../syntax/dialect.ts';

/** What NISTIR 6556 leaves open, or the families do differently: one named choice each, read by the interpreter. */
export interface Choices {
  /** Sign of `a MOD b`: never negative (the report's reference source), or that of `a`. */
  readonly modSign: 'never-negative' | 'of-dividend';
  /** FIX and FUP: to the lower and the higher whole number (3.3.2.4), or towards and away from zero. */
  readonly fixRounds: 'down' | 'towards-zero';
  /** AND, OR, XOR: on truth values (3.3.2.3), or on the bits of whole numbers. */
  readonly logicals: 'truth' | 'bits';
  /** Greatest difference of an arc's two radii in the centre format (3.5.3.2 for rs274ngc). */
  readonly arcTolerance: { readonly mm: number; readonly inch: number };
  /** A canned cycle keeps Z, Q, P and the like within blocks of one code (3.5.20), or until it is cancelled. R is always kept. */
  readonly cycleWords: 'same-code' | 'until-cancelled';
  /** Letters that tell how often a canned cycle repeats; the first that stands in the block counts. */
  readonly cycleRepeats: readonly string[];
  /** Unit of P in a dwell. */
  readonly dwell: 'seconds' | 'milliseconds';
  /** G52 writes what G92 writes, or has a shift of its own. */
  readonly localShift: 'with-g92' | 'own';
}

/** rs274ngc as NISTIR 6556 has it; macro, and all beyond the report: common practice, no source. */
export const choices: Readonly<Record<DialectName, Choices>> = {
  rs274ngc: {
    modSign: 'never-negative',
    fixRounds: 'down',
    logicals: 'truth',
    arcTolerance: { mm: 0.002, inch: 0.0002 },
    cycleWords: 'same-code',
    cycleRepeats: ['L'],
    dwell: 'seconds',
    localShift: 'with-g92',
  },
  macro: {
    modSign: 'of-dividend',
    fixRounds: 'towards-zero',
    logicals: 'bits',
    arcTolerance: { mm: 0.02, inch: 0.001 },
    cycleWords: 'until-cancelled',
    cycleRepeats: ['K', 'L'],
    dwell: 'milliseconds',
    localShift: 'own',
  },
};
