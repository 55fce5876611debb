import { type CompletionItem, CompletionItemKind } from 'vscode-languageserver';
import type { CompletionPlace } from './completion.ts';
import { replaceBefore } from './replaceBefore.ts';

/** One entry that stands for the characters typed before the caret. */
export function keywordItem(
  text: string,
  detail: string,
  order: string,
  typed: string,
  place: CompletionPlace,
  kind: CompletionItemKind = CompletionItemKind.Keyword,
): CompletionItem {
  return {
    label: text,
    kind,
    ...(detail === '' ? {} : { detail }),
    sortText: order,
    filterText: text,
    textEdit: replaceBefore(place, typed.length, text),
  };
}
