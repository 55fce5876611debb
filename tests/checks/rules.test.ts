import { describe, expect, it } from 'vitest';
import { explain, ruleIds, rules } from '../../server/checks/registry.ts';
import { checkText, told } from './marked.ts';
import { expectFixed } from './rulePrograms.ts';

describe('every rule', () => {
  it('has a kebab-case id of its own', () => {
    expect(new Set(ruleIds).size).toBe(ruleIds.length);
    for (const id of ruleIds) expect(id).toMatch(/^[a-z]+(-[a-z]+)*$/);
  });

  it.each(rules)('$id is documented', (rule) => {
    const page = explain(rule.id) ?? '';
    for (const part of [rule.title, rule.what, rule.why, rule.instead, rule.source]) {
      expect(part.length).toBeGreaterThan(12);
      expect(page).toContain(part);
    }
    for (const { program } of [...rule.fails, ...rule.passes]) expect(page).toContain(program.trimEnd());
    expect(rule.source).toMatch(/NISTIR 6556|common practice, no source|elementary kinematics/);
    expect(rule.fails.length).toBeGreaterThan(0);
    expect(rule.passes.length).toBeGreaterThan(0);
    expect(page).not.toMatch(/\bsafe(ly)?\b/i);
  });

  it('has no page for what is no rule', () => {
    expect(explain('no-such-rule')).toBeNull();
    expect(explain('constructor')).toBeNull();
  });

  for (const rule of rules) {
    it.each(rule.fails)(`${rule.id}: failing example %# reports that rule and no other`, (example) => {
      const { findings } = checkText(example.program, example);
      expect(new Set(findings.map((finding) => finding.rule)), told(findings).join()).toEqual(
        new Set([rule.id]),
      );
      for (const finding of findings)
        for (const fix of finding.fixes) expectFixed(example.program, finding, fix, example);
    });

    it.each(rule.passes)(`${rule.id}: passing example %# is quiet for all rules`, (example) => {
      expect(told(checkText(example.program, example).findings)).toEqual([]);
    });
  }
});
