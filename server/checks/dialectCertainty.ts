import type { Profile } from '../profile/profile.ts';
import { detectDialect } from '../syntax/detectDialect.ts';
import type { Source } from '../syntax/source.ts';
import { codesIn } from './blockFacts.ts';

const certainty = new WeakMap<Source, boolean>();

/** The profile or a comment names the dialect, or the text has flow, names or touches that only this one has. */
export function isDialectCertain(source: Source, profile: Profile): boolean {
  if (profile.dialect !== null) return true;
  const before = certainty.get(source);
  if (before !== undefined) return before;
  const certain = detectDialect(source.text).commentOverride || showsItsDialect(source);
  certainty.set(source, certain);
  return certain;
}

function showsItsDialect(source: Source): boolean {
  const own = source.dialect.name === 'macro' ? ['G65', 'G66', 'M98'] : ['G38.2', 'G38.3', 'G38.4', 'G38.5'];
  for (const line of source.otherLines()) {
    const block = source.block(line);
    if (block.items.some((item) => item.kind === 'flow')) return true;
    if (block.items.some((item) => item.kind === 'setting' && 'name' in item.target.index)) return true;
    if (codesIn(block).some(({ code }) => code !== null && own.includes(code))) return true;
  }
  return false;
}
