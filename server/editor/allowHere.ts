import type { TextEdit } from 'vscode-languageserver';
import type { Source } from '../syntax/source.ts';

/** The comment that allows a rule at a line, on a line of its own before it, indented like it. */
export function allowHereEdit(source: Source, line: number, rule: string, reason: string): TextEdit {
  const row = Math.min(Math.max(0, line), source.lineCount - 1);
  const indent = /^[ \t]*/.exec(source.text.line(row))?.[0] ?? '';
  const at = { line: row, character: 0 };
  return {
    range: { start: at, end: at },
    newText: `${indent}(probewright: allow ${rule} - ${inComment(reason)})${lineEndingOf(source)}`,
  };
}

/** The ending that the file uses, by its first line. */
export function lineEndingOf(source: Source): string {
  return source.text.lineEnding(0) || '\n';
}

/** One `)` ends a comment, whatever stands before it, and a comment is one line long. */
function inComment(reason: string): string {
  return reason.replaceAll('(', '[').replaceAll(')', ']').replace(/\s+/g, ' ').trim();
}
