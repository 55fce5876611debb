import type { DialectName } from '../../../server/syntax/dialect.ts';

/** A word about its form, and the program; a single line is one of a program that sets its modes before. */
export type LanguageProgram = readonly [form: string, program: string];

const ends: Readonly<Record<DialectName, string>> = { rs274ngc: 'M2', macro: 'M30' };

export function wholeProgram(program: string, dialect: DialectName): string {
  return /[\r\n]/.test(program) ? program : `G17 G21 G90 G94\nG1 X0 F100\n${program}\n${ends[dialect]}\n`;
}

/** The rules of the Language part of the catalogue, what fits nowhere else included. */
export const languageRules: ReadonlySet<string> = new Set([
  ...['syntax', 'unknown-code', 'modal-conflict', 'repeated-word', 'missing-word', 'unset-parameter'],
  ...['unmatched-flow', 'duplicate-label', 'ignored-arguments', 'machine-coordinates-without-motion'],
  ...['undefined-subroutine', 'outside-dialects', 'unreachable-block', 'unused-parameter'],
  ...['suppression-without-reason', 'unused-suppression'],
]);
