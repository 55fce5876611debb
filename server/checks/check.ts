import type { Analysis } from '../analysis/analysis.ts';
import { parameterUsesInPieces } from '../analysis/parameterUses.ts';
import type { Profile } from '../profile/profile.ts';
import type { Source } from '../syntax/source.ts';
import { directivesInPieces } from '../syntax/suppressions.ts';
import { BlockFindings } from './blockFindings.ts';
import { isDialectCertain } from './dialectCertainty.ts';
import { merged, sorted } from './findingOrder.ts';
import { foreignLanguage } from './foreignLanguage.ts';
import { outsideDialects } from './outsideDialects.ts';
import { ruleIds, rules } from './registry.ts';
import type { CheckContext, Finding, Report, Rule, Severity } from './rule.ts';
import { suppress } from './suppress.ts';
import { unusedSuppression } from './unusedSuppression.ts';

/** Reports taken between two pauses: with their fixes some take a while. */
const reportsAtOnce = 32;

export interface Checked {
  /** In the order of the text; one for each fault. */
  readonly findings: readonly Finding[];
  /** How many more there would be without comments that allow them. */
  readonly suppressed: number;
}

/** All findings of a program under a profile, with the profile's severities and the program's suppressions. */
export function check(source: Source, analysis: Analysis, profile: Profile): Checked {
  const work = new Checker(profile).check(source, analysis);
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
  }
}

/** Checks version after version of one program under one profile; blocks that an edit left alone are not read again. */
export class Checker {
  readonly blocks: BlockFindings;

  constructor(readonly profile: Profile) {
    const active = rules.filter(({ id, checkBlock }) => checkBlock && !this.#isOff(id));
    this.blocks = new BlockFindings(active, (rule, report) => findingOf(rule, report, profile));
  }

  /** As `check`, piece by piece: yields where it may pause. */
  *check(source: Source, analysis: Analysis): Generator<void, Checked> {
    const { profile } = this;
    const context: CheckContext = {
      analysis,
      profile,
      isDialectCertain: () => isDialectCertain(source, profile),
    };
    if (foreignLanguage(source, profile) !== null)
      return { findings: sorted(yield* this.#found(outsideDialects, context)), suppressed: 0 };
    yield;
    yield* analysis.work();
    // Rules find these without a pause, once somebody has had them found.
    yield* parameterUsesInPieces(source);
    yield* directivesInPieces(source);
    yield* analysis.findStored();
    const whole: Finding[] = [];
    for (const rule of rules) {
      if (!rule.check) continue;
      for (const finding of yield* this.#found(rule, context)) whole.push(finding);
      yield;
    }
    const all = merged(sorted(whole), yield* this.blocks.of(context));
    const { kept, suppressed, unused } = suppress(all, source, ruleIds, (rule) => this.#isOff(rule));
    const ofComments = this.#isOff(unusedSuppression.id)
      ? []
      : unused.map((report) => findingOf(unusedSuppression, report, profile));
    return { findings: merged(kept, sorted(ofComments)), suppressed };
  }

  #isOff(rule: string): boolean {
    return this.profile.rules[rule] === 'off';
  }

  *#found(rule: Rule, context: CheckContext): Generator<void, Finding[]> {
    const found: Finding[] = [];
    if (this.#isOff(rule.id)) return found;
    for (const report of rule.check?.(context) ?? []) {
      if (report) found.push(findingOf(rule, report, this.profile));
      if (!report || found.length % reportsAtOnce === 0) yield;
    }
    return found;
  }
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
