import { describe, expect, it } from 'vitest';
import { rules } from '../../server/checks/registry.ts';
import type { Example, Rule, Severity } from '../../server/checks/rule.ts';
import { checkText } from './marked.ts';

const levels = ['info', 'warning', 'error'] as const satisfies readonly Severity[];

/** Severities of what a rule finds in one of its failing examples where the profile gives it a level. */
function found(rule: Rule, example: Example, level: Severity | 'off'): Severity[] {
  const given = JSON.parse(example.profile ?? '{}');
  const profile = JSON.stringify({ ...given, rules: { ...given.rules, [rule.id]: level } });
  const { findings } = checkText(example.program, { ...example, profile });
  return findings.filter((finding) => finding.rule === rule.id).map(({ severity }) => severity);
}

function lesser(a: Severity, b: Severity): Severity {
  return levels.indexOf(a) < levels.indexOf(b) ? a : b;
}

describe.each(rules)('the severity of $id', (rule) => {
  it.each(rule.fails)('can be set in the profile, example %#', (example) => {
    expect(found(rule, example, 'off')).toEqual([]);
    const atMost = found(rule, example, 'error');
    expect(atMost).not.toEqual([]);
    // A finding that rests on built-in values, say, stays below: the level is the rule's, not what every finding gets.
    for (const level of levels)
      expect(found(rule, example, level)).toEqual(atMost.map((most) => lesser(level, most)));
  });

  it('can be raised to an error somewhere', () => {
    expect(rule.fails.flatMap((example) => found(rule, example, 'error'))).toContain('error');
  });
});

it('is the rule’s own where the profile says nothing', () => {
  for (const rule of rules)
    for (const example of rule.fails) {
      const plain = checkText(example.program, example).findings.map(({ severity }) => severity);
      expect(plain, rule.id).toEqual(found(rule, example, rule.severity));
    }
});
