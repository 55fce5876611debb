import type { Chunk } from './chunk.ts';
import { lineKind } from './lineClass.ts';
import type { SourceText } from './sourceText.ts';
import { linesLookedAt } from './startMemory.ts';

const charactersLookedAt = 1000;

export interface FirstLine {
  /** 0-based. */
  readonly index: number;
  /** Without its ending, cut off where it gets very long; '' where it is plain. */
  readonly written: string;
  /** Only words with numbers, as in a million lines of milling: nothing that tells languages apart. */
  readonly isPlain: boolean;
}

/** The first lines of a text that are not blank. */
export function* firstLines({ chunks }: SourceText): Iterable<FirstLine> {
  let first = 0;
  for (const chunk of chunks) {
    for (let line = 0; line < chunk.lineCount; line++) {
      if (first + line >= linesLookedAt) return;
      if (chunk.kind(line) !== lineKind.blank) yield firstLine(chunk, line, first + line);
    }
    first += chunk.lineCount;
  }
}

function firstLine(chunk: Chunk, line: number, index: number): FirstLine {
  return chunk.isPlain(line)
    ? { index, written: '', isPlain: true }
    : { index, written: chunk.line(line).slice(0, charactersLookedAt), isPlain: false };
}

/** A line without comments and blanks, in capitals. */
export function bareLine(line: string): string {
  return withoutComments(line)
    .replace(/[ \t\ufeff]/g, '')
    .toUpperCase();
}

export function withoutComments(line: string): string {
  return line.replace(/\([^)]*\)?|;.*/g, '');
}
