import type { DialectName } from './dialect.ts';
import { dialects } from './dialects.ts';

/** What a `(probewright: …)` or `; probewright: …` comment asks for. */
export type Directive =
  | { readonly kind: 'allow'; readonly rule: string; readonly reason: string | null }
  | { readonly kind: 'dialect'; readonly dialect: DialectName }
  | { readonly kind: 'unknown'; readonly written: string; readonly problem: DirectiveProblem };

/** Why a comment that begins with our name asks for nothing. */
export type DirectiveProblem =
  | 'no-colon'
  | 'nothing-asked'
  | 'unknown-word'
  | 'no-rule'
  | 'unknown-dialect'
  /** It begins much as our name does, and goes on with a word of ours. */
  | 'other-name';

/** Quick test for a text that may hold a directive. */
export const mayHoldDirective = /probewright|prob.*(?:allow|dialect)/i;

/**
 * The directive in a comment's text; null where the comment is not ours. One that begins with our name and a word of ours
 * but lacks the colon is ours, and wrong; so, most likely, is one that begins much as our name does.
 */
export function readDirective(comment: string): Directive | null {
  const colon = /^\s*probewright\s*:\s*(.*?)\s*$/i.exec(comment);
  if (colon === null) {
    const bare = /^\s*probewright\s+((?:allow|dialect)\b.*?)\s*$/i.exec(comment)?.[1];
    if (bare !== undefined) return { kind: 'unknown', written: bare, problem: 'no-colon' };
    return otherName.test(comment)
      ? { kind: 'unknown', written: comment.trim(), problem: 'other-name' }
      : null;
  }
  const written = colon[1] ?? '';
  const allow = /^allow\s+([a-z][a-z0-9-]*[a-z0-9])(?:\s+[-–—:]|[–—:])?\s*(.*)$/i.exec(written);
  if (allow) return { kind: 'allow', rule: (allow[1] ?? '').toLowerCase(), reason: allow[2] || null };
  const name = /^dialect\s+(\w+)$/i.exec(written)?.[1]?.toLowerCase();
  if (name !== undefined && isDialectName(name)) return { kind: 'dialect', dialect: name };
  return { kind: 'unknown', written, problem: problemOf(written) };
}

/** One word of about the length of our name, or two with a colon behind them: prose seldom goes on so. */
const otherName =
  /^\s*(?!probewright\b)(?:prob[a-z]{4,9}\s*:?|prob[a-z]{0,2}[- ][a-z]{4,7}\s*:)\s*(?:allow|dialect)\b/i;

function problemOf(written: string): DirectiveProblem {
  if (written === '') return 'nothing-asked';
  if (/^allow\b/i.test(written)) return 'no-rule';
  return /^dialect\b/i.test(written) ? 'unknown-dialect' : 'unknown-word';
}

function isDialectName(name: string): name is DialectName {
  return Object.hasOwn(dialects, name);
}
