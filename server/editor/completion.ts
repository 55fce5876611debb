import type { CompletionItem, Position } from 'vscode-languageserver';
import type { Program } from '../workspace/program.ts';
import { completeCode } from './completeCode.ts';
import { completeKeyword } from './completeKeyword.ts';
import { completeParameter } from './completeParameter.ts';
import { completeRoutine } from './completeRoutine.ts';
import { completeSuppression } from './completeSuppression.ts';

/** The line up to the caret, and where the caret is. */
export interface CompletionPlace {
  readonly before: string;
  readonly position: Position;
}

/**
 * What can follow at a position: rule ids in an allowance, parameters after `#`, flow, codes, routines at a line's start.
 * @param trigger the character that was typed, where that is what made the client ask
 */
export function completion(
  program: Program,
  position: Position,
  trigger?: string,
  { snippets }: { readonly snippets: boolean } = { snippets: false },
): CompletionItem[] {
  const { source } = program;
  if (position.line < 0 || position.line >= source.lineCount) return [];
  const before = source.text.line(position.line).slice(0, position.character);
  // A line of that length is no program's; its words are not looked through at each key.
  if (before.length > 10_000) return [];
  const place = { before, position: { line: position.line, character: before.length } };
  const comment = openComment(before);
  if (comment !== null) return completeSuppression(comment, place);
  const parameters = completeParameter(program, place);
  if (parameters !== null) return parameters;
  // A blank that was merely typed asks for no list of codes.
  if (trigger === ' ' && before.trim() === '') return [];
  const flow = completeKeyword(program, place, snippets);
  const routines = completeRoutine(program, place);
  if (trigger === ' ') return [...flow, ...routines];
  return [...flow, ...routines, ...completeCode(program, place)];
}

/** The text of the comment that the caret is in, null outside of any. */
function openComment(before: string): string | null {
  let start: number | null = null;
  for (let at = 0; at < before.length; at++) {
    const character = before[at];
    if (start === null && character === ';') return before.slice(at + 1);
    if (start === null && character === '(') start = at + 1;
    else if (character === ')') start = null;
  }
  return start === null ? null : before.slice(start);
}
