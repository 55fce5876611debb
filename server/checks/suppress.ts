import { closestName } from '../profile/closestName.ts';
import type { Source } from '../syntax/source.ts';
import { type Suppression, suppressions } from '../syntax/suppressions.ts';
import { lineRemoved, removed, replaced } from './lineEdits.ts';
import { misspeltComments } from './misspeltComment.ts';
import type { Finding, Fix, Report } from './rule.ts';

export interface Suppressed {
  readonly kept: readonly Finding[];
  readonly suppressed: number;
  /** What the rule unused-suppression reports. */
  readonly unused: readonly Report[];
}

/**
 * Takes out the findings that a comment with a reason allows. `isOff` tells the rules that the profile turns off:
 * whether their suppressions are needed is not known.
 */
export function suppress(
  findings: readonly Finding[],
  source: Source,
  ruleIds: readonly string[],
  isOff: (rule: string) => boolean,
): Suppressed {
  const allowed = suppressions(source).filter(({ reason }) => reason !== null);
  const used = new Set<Suppression>();
  const byLine = new Map<number, Suppression[]>();
  for (const each of allowed) byLine.set(each.coversLine, [...(byLine.get(each.coversLine) ?? []), each]);
  const kept = findings.filter(({ rule, place }) => {
    const by = (byLine.get(place.line) ?? []).filter((each) => each.rule === rule);
    for (const each of by) used.add(each);
    return by.length === 0;
  });
  const unused = allowed.filter((each) => !used.has(each) && !isOff(each.rule));
  return {
    kept,
    suppressed: findings.length - kept.length,
    unused: [...unused.map((each) => report(each, source, ruleIds)), ...misspeltComments(source, ruleIds)],
  };
}

function report(suppression: Suppression, source: Source, ruleIds: readonly string[]): Report {
  const { rule, place, coversLine } = suppression;
  const message = ruleIds.includes(rule)
    ? `There is no ${rule} at line ${coversLine + 1} for this comment to allow.`
    : `There is no rule "${rule}": this comment allows nothing.`;
  const meant = ruleIds.includes(rule) ? null : closestName(rule, ruleIds);
  if (meant === null) return { message, place, fixes: [removal(suppression, source)] };
  return {
    message: `${message} Perhaps ${meant} is meant.`,
    place,
    fixes: [respelling(suppression, meant, source), removal(suppression, source)],
  };
}

function respelling({ rule, place }: Suppression, meant: string, source: Source): Fix {
  const text = source.text.line(place.line);
  const start = text.toLowerCase().indexOf(rule, place.start);
  const end = start + rule.length;
  return {
    title: `Write "${meant}"`,
    edits: [replaced(place.line, { start, end }, meant)],
    changesMotion: false,
  };
}

function removal({ place }: Suppression, source: Source): Fix {
  const block = source.block(place.line);
  const alone = block.text.slice(0, place.start).trim() === '' && block.text.slice(place.end).trim() === '';
  return {
    title: 'Remove the comment',
    edits: [alone ? lineRemoved(source, place.line) : removed(block, place.line, place)],
    changesMotion: false,
  };
}
