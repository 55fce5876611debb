import { describe, expect, it } from 'vitest';
import type { DialectName } from '../../../server/syntax/dialect.ts';
import { checkText, readMarks, told } from '../marked.ts';
import { type LanguageProgram, languageRules, wholeProgram } from './languagePrograms.ts';
import { macroInvalid } from './macroInvalid.ts';
import { macroValid } from './macroValid.ts';
import { rs274ngcInvalid } from './rs274ngcInvalid.ts';
import { rs274ngcValid } from './rs274ngcValid.ts';

/** What the language rules say, and where; the profile names the dialect. */
function languageFindings(program: string, dialect: DialectName): string[] {
  const { findings } = checkText(program, { dialect, profile: `{ "dialect": "${dialect}" }` });
  return told(findings.filter(({ rule }) => languageRules.has(rule)));
}

describe.each([
  ['rs274ngc', rs274ngcValid, rs274ngcInvalid],
  ['macro', macroValid, macroInvalid],
] as const)('the language of %s', (dialect, valid, invalid) => {
  it.each(valid)('takes %s', (_, program) => {
    expect(languageFindings(wholeProgram(program, dialect), dialect)).toEqual([]);
  });

  it.each(invalid)('does not take %s', (_, program) => {
    const { text, expected } = readMarks(wholeProgram(program, dialect));
    expect(expected).not.toEqual([]);
    expect(languageFindings(text, dialect)).toEqual(expected);
  });

  it('is asked in many forms', () => {
    const formsOf = (list: readonly LanguageProgram[]) => new Set(list.map(([form]) => form)).size;
    expect([formsOf(valid), formsOf(invalid)]).toEqual([valid.length, invalid.length]);
    expect(valid.length).toBeGreaterThanOrEqual(60);
    expect(invalid.length).toBeGreaterThanOrEqual(40);
  });
});
