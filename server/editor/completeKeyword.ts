import type { CompletionItem } from 'vscode-languageserver';
import type { Program } from '../workspace/program.ts';
import { completeMacroFlow } from './completeMacroFlow.ts';
import { completeOWord } from './completeOWord.ts';
import type { CompletionPlace } from './completion.ts';

/** Flow: what ends or goes on with what is open, calls of the file's subroutines, jump targets, IF, WHILE. */
export function completeKeyword(
  { source }: Program,
  place: CompletionPlace,
  snippets: boolean,
): CompletionItem[] {
  return source.dialect.oWords
    ? completeOWord(source, place, snippets)
    : completeMacroFlow(source, place, snippets);
}
