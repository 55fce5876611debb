import type { TextEdit } from 'vscode-languageserver';
import type { CompletionPlace } from './completion.ts';

/** Puts a text in place of the last characters before the caret. */
export function replaceBefore({ position }: CompletionPlace, length: number, newText: string): TextEdit {
  return {
    range: { start: { line: position.line, character: position.character - length }, end: position },
    newText,
  };
}
