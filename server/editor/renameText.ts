import type { TextEdit } from 'vscode-languageserver';
import type { Occurrence } from './nameOccurrences.ts';
import type { Name } from './names.ts';
import type { NewName } from './newName.ts';
import { rangeOf } from './ranges.ts';

/** The edit that puts a new name where the old one stands, in the form that the place asks for. */
export function renameText({ source, place }: Occurrence, name: Name, to: NewName): TextEdit {
  const { text } = source.block(place.line);
  const isNumber = /^\d+$/.test(to.name);
  const decorated = isNumber ? to.written : `<${to.written}>`;
  if (name.kind === 'parameter') return { range: rangeOf(place), newText: `#${decorated}` };
  const inBrackets = text.charAt(place.start - 1) === '<';
  const range = rangeOf(inBrackets ? { ...place, start: place.start - 1, end: place.end + 1 } : place);
  if (!isNumber || inBrackets) return { range, newText: decorated };
  const old = text.slice(place.start, place.end);
  // Numbers that were written with leading zeros keep their width.
  return { range, newText: old.startsWith('0') ? to.written.padStart(old.length, '0') : to.written };
}
