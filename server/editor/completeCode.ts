import { type CompletionItem, CompletionItemKind } from 'vscode-languageserver';
import { codesOf } from '../program/codes.ts';
import type { DialectName } from '../syntax/dialect.ts';
import type { CompletionPlace } from './completion.ts';
import { replaceBefore } from './replaceBefore.ts';

/** G and M codes of the dialect, after their letter or where a word can begin. */
export function completeCode(dialect: DialectName, place: CompletionPlace): CompletionItem[] {
  const typed =
    /(?:^|[^A-Za-z])([GMgm][\d.]*)$/.exec(place.before)?.[1] ?? (wordBegins(place.before) ? '' : null);
  if (typed === null) return [];
  const letter = typed.slice(0, 1).toUpperCase();
  return codesOf(dialect)
    .filter(({ code }) => code.startsWith(letter))
    .map(({ code, title }) => ({
      label: code,
      kind: code.startsWith('G') ? CompletionItemKind.Function : CompletionItemKind.Method,
      // Beside every row, not the focused one alone.
      labelDetails: { description: title },
      sortText: sortText(code),
      filterText: code,
      textEdit: replaceBefore(place, typed.length, /^[gm]/.test(typed) ? code.toLowerCase() : code),
      data: { kind: 'code', code, dialect },
    }));
}

/** At the start of a line or after a blank, unless a letter waits for its value. */
function wordBegins(before: string): boolean {
  return /(?:^|[\d\].)>]\s)\s*$/.test(before);
}

/** G2 before G10. */
function sortText(code: string): string {
  const [, letter = '', whole = '', rest = ''] = /^(\D)(\d+)(.*)$/.exec(code) ?? [];
  return `${letter}${whole.padStart(4, '0')}${rest}`;
}
