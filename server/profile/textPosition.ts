/** Where each line begins, in UTF-16 offsets; LF, CRLF and CR end a line. */
export function lineStarts(text: string): readonly number[] {
  const starts = [0];
  for (const match of text.matchAll(/\r\n|\r|\n/g)) starts.push(match.index + match[0].length);
  return starts;
}

/** 0-based line and column of an offset. */
export function positionOf(offset: number, starts: readonly number[]): { line: number; column: number } {
  let [from, to] = [0, starts.length];
  while (to - from > 1) {
    const middle = (from + to) >> 1;
    if ((starts[middle] ?? 0) <= offset) from = middle;
    else to = middle;
  }
  return { line: from, column: offset - (starts[from] ?? 0) };
}
