import type { Analysis } from '../analysis/analysis.ts';
import type { Profile } from '../profile/profile.ts';
import type { Source } from '../syntax/source.ts';
import { foreignLanguage } from './foreignLanguage.ts';
import { outsideDialects } from './outsideDialects.ts';
import { ruleIds, rules } from './registry.ts';
import type { CheckContext, Finding, Report, Rule, Severity } from './rule.ts';
import { suppress } from './suppress.ts';
import { unusedSuppression } from './unusedSuppression.ts';

export interface Checked {
  /** In the order of the text; one for each fault. */
  readonly findings: readonly Finding[];
  /** How many more there would be without comments that allow them. */
  readonly suppressed: number;
}

/** All findings of a program under a profile, with the profile's severities and the program's suppressions. */
export function check(source: Source, analysis: Analysis, profile: Profile): Checked {
  const context: CheckContext = { analysis, profile };
  if (foreignLanguage(source, profile) !== null)
    return {
      findings: found(outsideDialects, outsideDialects.check?.(context) ?? [], profile),
      suppressed: 0,
    };
  const isOff = (rule: string) => profile.rules[rule] === 'off';
  const all = inOrder([...wholeProgram(context), ...byBlock(context)]);
  const { kept, suppressed, unused } = suppress(all, source, ruleIds, isOff);
  return { findings: inOrder([...kept, ...found(unusedSuppression, unused, profile)]), suppressed };
}

function wholeProgram(context: CheckContext): Finding[] {
  return rules.flatMap((rule) => found(rule, rule.check?.(context) ?? [], context.profile));
}

/** One pass over the blocks that are not plain, for all rules that look at single blocks. */
function byBlock(context: CheckContext): Finding[] {
  const { source } = context.analysis;
  const active = rules.filter(({ id, checkBlock }) => checkBlock && context.profile.rules[id] !== 'off');
  const findings: Finding[] = [];
  for (const line of source.otherLines()) {
    const block = source.block(line);
    for (const rule of active)
      for (const report of rule.checkBlock?.(block, line, context) ?? [])
        findings.push(findingOf(rule, report, context.profile));
  }
  return findings;
}

function found(rule: Rule, reports: Iterable<Report>, profile: Profile): Finding[] {
  if (profile.rules[rule.id] === 'off') return [];
  return Array.from(reports, (report) => findingOf(rule, report, profile));
}

function findingOf(rule: Rule, report: Report, profile: Profile): Finding {
  const stated = profile.rules[rule.id];
  return {
    rule: rule.id,
    severity: lesser(stated && stated !== 'off' ? stated : rule.severity, report.severity ?? 'error'),
    message: report.message,
    place: report.place,
    related: report.related ?? [],
    fixes: report.fixes ?? [],
  };
}

const ranks: readonly Severity[] = ['info', 'warning', 'error'];

function lesser(a: Severity, b: Severity): Severity {
  return ranks.indexOf(a) < ranks.indexOf(b) ? a : b;
}

function inOrder(findings: readonly Finding[]): Finding[] {
  const unique = new Map(
    findings.map((finding) => [`${finding.rule}:${finding.place.line}:${finding.place.start}`, finding]),
  );
  return [...unique.values()].sort(
    (a, b) => a.place.line - b.place.line || a.place.start - b.place.start || (a.rule < b.rule ? -1 : 1),
  );
}
