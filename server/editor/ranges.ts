import type { Range, TextEdit } from 'vscode-languageserver';
import type { Edit } from '../checks/rule.ts';
import type { Place } from '../syntax/place.ts';

export function rangeOf({ line, start, end }: Place): Range {
  return { start: { line, character: start }, end: { line, character: end } };
}

export function textEditOf(edit: Edit): TextEdit {
  return {
    range: {
      start: { line: edit.line, character: edit.start },
      end: { line: edit.endLine, character: edit.end },
    },
    newText: edit.text,
  };
}

/** Whether two ranges meet; a caret at the edge of a range meets it. */
export function meet(a: Range, b: Range): boolean {
  return !isBefore(a.end, b.start) && !isBefore(b.end, a.start);
}

export function sameRange(a: Range, b: Range): boolean {
  return (
    a.start.line === b.start.line &&
    a.start.character === b.start.character &&
    a.end.line === b.end.line &&
    a.end.character === b.end.character
  );
}

function isBefore(a: Range['start'], b: Range['start']): boolean {
  return a.line < b.line || (a.line === b.line && a.character < b.character);
}
