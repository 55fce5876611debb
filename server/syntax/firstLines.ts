import type { SourceText } from './sourceText.ts';

/** What language a file is in shows at its beginning; the rest of a long file is not looked at. */
const linesLookedAt = 5000;
const charactersLookedAt = 1000;

/** The first lines of a text without their endings, each cut off where it gets very long. */
export function* firstLines(text: SourceText | string): Iterable<string> {
  if (typeof text !== 'string') {
    const count = Math.min(text.lineCount, linesLookedAt);
    for (let line = 0; line < count; line++) yield text.line(line).slice(0, charactersLookedAt);
    return;
  }
  const ending = /\r\n|\n|\r/g;
  let start = 0;
  for (let count = 0; count < linesLookedAt; count++) {
    const found = ending.exec(text);
    yield text.slice(start, Math.min(found?.index ?? text.length, start + charactersLookedAt));
    if (found === null) return;
    start = ending.lastIndex;
  }
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
