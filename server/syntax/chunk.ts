import { code } from './charCodes.ts';

export type LineEnding = '' | '\n' | '\r\n' | '\r';

/** Lines of a chunk; the last one may have up to `mostLines`, so that an edit seldom splits a chunk. */
const linesPerChunk = 256;
const mostLines = 320;
const charactersPerChunk = 65_536;

/** Some lines of a text with their endings; only the last line of a text has none. */
export class Chunk {
  constructor(
    readonly text: string,
    /** Offsets of the lines in `text`, the first being 0. */
    readonly starts: Uint32Array,
  ) {}

  get lineCount(): number {
    return this.starts.length;
  }

  line(index: number): string {
    return this.text.slice(this.starts[index], this.contentEnd(index));
  }

  lineStart(index: number): number {
    return this.starts[index] ?? this.text.length;
  }

  /** Where the line ends, its ending left out. */
  contentEnd(index: number): number {
    return this.lineStart(index + 1) - this.ending(index).length;
  }

  ending(index: number): LineEnding {
    const start = this.lineStart(index);
    const end = this.lineStart(index + 1);
    const last = end > start ? this.text.charCodeAt(end - 1) : 0;
    if (last === code.carriageReturn) return '\r';
    if (last !== code.lineFeed) return '';
    return end - 1 > start && this.text.charCodeAt(end - 2) === code.carriageReturn ? '\r\n' : '\n';
  }

  /** The last line inside the chunk that begins at or before `offset`. */
  lineAt(offset: number): number {
    let low = 0;
    let high = this.starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.lineStart(middle) <= offset) low = middle;
      else high = middle - 1;
    }
    return low;
  }
}

/**
 * Cuts a text into chunks at line ends. `last`: the text runs to the end of the whole text, so what stands behind the
 * last line ending is a line, even an empty one. `copy`: chunks get memory of their own and don't keep `text` alive.
 */
export function cutIntoChunks(
  text: string,
  options: { readonly last: boolean; readonly copy: boolean },
): Chunk[] {
  const chunks: Chunk[] = [];
  const starts = new Uint32Array(mostLines);
  let count = 0;
  let lineStart = 0;
  const emit = (lines: number, end: number) => {
    const from = starts[0] ?? 0;
    const slice = text.slice(from, end);
    const relative = starts.slice(0, lines);
    for (let line = 0; line < lines; line++) relative[line] = (relative[line] ?? 0) - from;
    chunks.push(new Chunk(options.copy ? flatCopy(slice) : slice, relative));
    starts.copyWithin(0, lines, count);
    count -= lines;
  };
  for (let end = nextLine(text, 0); end >= 0; end = nextLine(text, end)) {
    starts[count++] = lineStart;
    lineStart = end;
    if (count === mostLines) emit(linesPerChunk, starts[linesPerChunk] ?? end);
    else if (end - (starts[0] ?? 0) >= charactersPerChunk) emit(count, end);
  }
  if (options.last) starts[count++] = lineStart;
  if (count > 0) emit(count, text.length);
  return chunks;
}

/** Where the line that begins at or after `from` ends, its ending taken in; -1 where no line ending follows. */
function nextLine(text: string, from: number): number {
  for (let at = from; at < text.length; at++) {
    const unit = text.charCodeAt(at);
    if (unit === code.lineFeed) return at + 1;
    if (unit === code.carriageReturn) return text.charCodeAt(at + 1) === code.lineFeed ? at + 2 : at + 1;
  }
  return -1;
}

/** The same text in memory of its own: a slice of a joined string points into the join, not into the first text. */
function flatCopy(text: string): string {
  return ` ${text}`.slice(1);
}
