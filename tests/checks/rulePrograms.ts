import { describe, expect, it } from 'vitest';
import type { Finding, Fix } from '../../server/checks/rule.ts';
import type { DialectName } from '../../server/syntax/dialect.ts';
import { applied, checkText, expectMarks, readMarks, type Setting, told } from './marked.ts';

/** Name of the form, dialect, program with marks, profile text or files beside it where it needs some. */
export type RuleProgram =
  | readonly [form: string, dialect: DialectName, program: string]
  | readonly [form: string, dialect: DialectName, program: string, profile: string]
  | readonly [form: string, dialect: DialectName, program: string, files: Readonly<Record<string, string>>];

/** Programs that a rule must report and programs that it must leave alone; each fix is tried as well. */
export function testRule(rule: string, reports: readonly RuleProgram[], quiet: readonly RuleProgram[]): void {
  describe(rule, () => {
    describe('reports', () => {
      it.each(named(reports))('$name', ({ program, ...setting }) => {
        const { findings } = expectMarks(program, setting);
        const own = findings.filter((finding) => finding.rule === rule);
        expect(own).not.toEqual([]);
        for (const finding of own)
          for (const fix of finding.fixes) expectFixed(readMarks(program).text, finding, fix, setting);
      });
    });
    describe('is quiet', () => {
      it.each(named(quiet))('$name', ({ program, ...setting }) => {
        const { findings } = expectMarks(program, setting);
        expect(findings.filter((finding) => finding.rule === rule)).toEqual([]);
      });
    });
    it('has six programs of each kind, no two of one form', () => {
      expect(reports.length).toBeGreaterThanOrEqual(6);
      expect(quiet.length).toBeGreaterThanOrEqual(6);
      const forms = [...reports, ...quiet].map(([form, dialect]) => `${form} ${dialect}`);
      expect(new Set(forms).size).toBe(forms.length);
    });
  });
}

function named(programs: readonly RuleProgram[]) {
  return programs.map(([form, dialect, program, beside]) => ({
    name: `${form} (${dialect})`,
    dialect,
    program,
    profile: typeof beside === 'string' ? beside : undefined,
    files: typeof beside === 'object' ? beside : undefined,
  }));
}

/** The fix takes its finding away, adds none, and writes the file's own line endings. */
export function expectFixed(text: string, finding: Finding, fix: Fix, setting: Setting): void {
  const before = checkText(text, setting).findings;
  const fixed = applied(text, fix.edits);
  const after = checkText(fixed, setting).findings;
  const name = `${finding.rule}: ${fix.title}\n${fixed}\n${told(after).join('\n')}`;
  const [had, has] = [counts(before), counts(after)];
  expect(has.get(finding.rule) ?? 0, name).toBeLessThan(had.get(finding.rule) ?? 0);
  for (const [rule, count] of has)
    expect(count, `${rule} after ${name}`).toBeLessThanOrEqual(had.get(rule) ?? 0);
  const crlf = text.replaceAll('\n', '\r\n');
  const same = checkText(crlf, setting).findings.find((each) => sameFinding(each, finding));
  const sameFix = same?.fixes.find(({ title }) => title === fix.title);
  expect(sameFix && applied(crlf, sameFix.edits)).toBe(fixed.replaceAll('\n', '\r\n'));
}

function counts(findings: readonly Finding[]): Map<string, number> {
  const found = new Map<string, number>();
  for (const { rule } of findings) found.set(rule, (found.get(rule) ?? 0) + 1);
  return found;
}

function sameFinding(a: Finding, b: Finding): boolean {
  return a.rule === b.rule && a.place.line === b.place.line && a.place.start === b.place.start;
}
