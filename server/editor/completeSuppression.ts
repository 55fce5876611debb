import { type CompletionItem, CompletionItemKind } from 'vscode-languageserver';
import { rules } from '../checks/registry.ts';
import type { CompletionPlace } from './completion.ts';
import { replaceBefore } from './replaceBefore.ts';

/** Inside `(probewright: …)`: what can be said there, and the rules that can be allowed. */
export function completeSuppression(comment: string, place: CompletionPlace): CompletionItem[] {
  const allow = /^\s*probewright:\s*allow\s+([\w-]*)$/i.exec(comment);
  if (allow) return rules.map((rule) => ruleItem(rule, allow[1] ?? '', place));
  const opening = /^\s*([a-z]*)$/i.exec(comment)?.[1];
  if (opening !== undefined && 'probewright'.startsWith(opening.toLowerCase()))
    return [beginning(opening, place)];
  const start = /^\s*probewright:\s*(\w*)$/i.exec(comment);
  if (!start) return [];
  return directives.map(({ text, detail }) => ({
    label: text,
    kind: CompletionItemKind.Keyword,
    detail,
    textEdit: replaceBefore(place, (start[1] ?? '').length, text),
  }));
}

function beginning(typed: string, place: CompletionPlace): CompletionItem {
  return {
    label: 'probewright:',
    kind: CompletionItemKind.Keyword,
    detail: 'allows a rule here, or names the dialect of the file',
    textEdit: replaceBefore(place, typed.length, 'probewright: '),
  };
}

const directives = [
  { text: 'allow', detail: 'silences a rule here: allow RULE - REASON' },
  { text: 'dialect rs274ngc', detail: 'this file is RS274/NGC' },
  { text: 'dialect macro', detail: 'this file is of the macro family' },
];

function ruleItem(
  rule: { id: string; title: string },
  typed: string,
  place: CompletionPlace,
): CompletionItem {
  return {
    label: rule.id,
    kind: CompletionItemKind.EnumMember,
    detail: rule.title,
    textEdit: replaceBefore(place, typed.length, `${rule.id} - `),
    data: { kind: 'rule', id: rule.id },
  };
}
