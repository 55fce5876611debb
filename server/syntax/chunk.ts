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
    return this.text.slice(this.lineStart(index), this.contentEnd(index));
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
  const nextEnd = lineEnds(text);
  for (let end = nextEnd(0); end >= 0; end = nextEnd(end)) {
    starts[count++] = lineStart;
    lineStart = end;
    if (count === mostLines) emit(linesPerChunk, starts[linesPerChunk] ?? end);
    else if (end - (starts[0] ?? 0) >= charactersPerChunk) emit(count, end);
  }
  if (options.last) starts[count++] = lineStart;
  if (count > 0) emit(count, text.length);
  return chunks;
}

/**
 * A function that says where the line beginning at its argument ends, its ending taken in; -1 where no ending follows.
 * Arguments must not go back: the next LF and CR are remembered, as a search may run to the end of the text.
 */
function lineEnds(text: string): (from: number) => number {
  let feed = text.indexOf('\n');
  let carriage = text.indexOf('\r');
  return (from) => {
    if (feed >= 0 && feed < from) feed = text.indexOf('\n', from);
    if (carriage >= 0 && carriage < from) carriage = text.indexOf('\r', from);
    if (carriage < 0 || (feed >= 0 && feed < carriage)) return feed + (feed < 0 ? 0 : 1);
    return carriage + (feed === carriage + 1 ? 2 : 1);
  };
}

/** The same text in memory of its own: a slice of a joined string points into the join, not into the first text. */
function flatCopy(text: string): string {
  return ` ${text}`.slice(1);
}
