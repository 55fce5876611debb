import type { Profile } from '../profile/profile.ts';
import { detectDialect } from '../syntax/detectDialect.ts';
import { otherLanguage } from '../syntax/otherLanguage.ts';
import type { Source } from '../syntax/source.ts';

const judged = new WeakMap<Source, string | 'ours'>();

/** Why the file is in another language than ours; null where it is not, or a profile or a comment names its dialect. */
export function foreignLanguage(source: Source, profile: Profile): string | null {
  if (profile.dialect !== null) return null;
  const known = judged.get(source) ?? judge(source) ?? 'ours';
  judged.set(source, known);
  return known === 'ours' ? null : known;
}

function judge(source: Source): string | null {
  const reason = otherLanguage(source.text);
  return reason !== null && detectDialect(source.text).commentOverride ? null : reason;
}
