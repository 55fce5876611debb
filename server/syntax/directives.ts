import type { DialectName } from './dialect.ts';
import { dialects } from './dialects.ts';

/** What a `(probewright: …)` or `; probewright: …` comment asks for. */
export type Directive =
  | { readonly kind: 'allow'; readonly rule: string; readonly reason: string | null }
  | { readonly kind: 'dialect'; readonly dialect: DialectName }
  | { readonly kind: 'unknown'; readonly written: string };

/** Quick test for a text that may hold a directive. */
export const mayHoldDirective = /probewright/i;

/** The directive in a comment's text; null where the comment is not ours. */
export function readDirective(comment: string): Directive | null {
  const written = /^\s*probewright\s*:\s*(.*?)\s*$/i.exec(comment)?.[1];
  if (written === undefined) return null;
  const allow = /^allow\s+([a-z][a-z0-9-]*[a-z0-9])(?:\s+[-–—:]|[–—:])?\s*(.*)$/i.exec(written);
  if (allow) return { kind: 'allow', rule: (allow[1] ?? '').toLowerCase(), reason: allow[2] || null };
  const name = /^dialect\s+(\w+)$/i.exec(written)?.[1]?.toLowerCase();
  if (name !== undefined && isDialectName(name)) return { kind: 'dialect', dialect: name };
  return { kind: 'unknown', written };
}

function isDialectName(name: string): name is DialectName {
  return Object.hasOwn(dialects, name);
}
