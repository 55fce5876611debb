import type { Source } from '../syntax/source.ts';

/**
 * Lines that may steer the program, told by their text alone: a million other blocks need no tree to know that they do
 * not. A line may be named that does not steer; none that does is left out.
 */
export function flowLines(source: Source, lines: Iterable<number>): number[] {
  const may = source.dialect.oWords ? mayBeOWord : mayBeMacroFlow;
  const found: number[] = [];
  for (const line of lines) {
    const text = source.text.line(line);
    if (may.test(text) || mayCallOrEnd.test(text)) found.push(line);
  }
  return found;
}

/** An O-word stands first, behind `/` and N at most. */
const mayBeOWord = /^[^A-Za-z(;#]*(n[\s\d.]*)?[\s/\d]*o|abort/i;
const mayBeMacroFlow = /o|d\s*o|i\s*f|e\s*n\s*d|w\s*h|#[\s0[]*3|#\s*\[/i;
/** G65, M2, M30, M98, M99, whatever blanks and zeros stand in them. */
const mayCallOrEnd = /m[\s0+]*[239]|g[\s0+]*6/i;
