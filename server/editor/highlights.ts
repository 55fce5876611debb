import { type DocumentHighlight, DocumentHighlightKind, type Position } from 'vscode-languageserver';
import type { KnownProgram } from '../workspace/relatedPrograms.ts';
import { nameOccurrences } from './nameOccurrences.ts';
import { nameAt } from './names.ts';
import { rangeOf } from './ranges.ts';

/** The name at a position wherever it stands in its own program: set or declared as written, used as read. */
export function highlights(program: KnownProgram, { line, character }: Position): DocumentHighlight[] {
  const name = nameAt(program.source, line, character)?.name;
  if (!name) return [];
  return nameOccurrences(name, program, [program])
    .filter(({ uri }) => uri === program.uri)
    .map(({ place, role }) => ({
      range: rangeOf(place),
      kind: role === 'reads' ? DocumentHighlightKind.Read : DocumentHighlightKind.Write,
    }));
}
