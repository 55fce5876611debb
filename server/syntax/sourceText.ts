import { code } from './charCodes.ts';
import type { Chunk, LineEnding } from './chunk.ts';
import { chunksOfBytes, type StoredBytes } from './chunksOfBytes.ts';
import { cutIntoChunks } from './cutIntoChunks.ts';

/** Replaces from (line, start) up to (endLine, end); 0-based lines, UTF-16 offsets; out of range is clamped. */
export interface TextChange {
  readonly line: number;
  readonly start: number;
  readonly endLine: number;
  readonly end: number;
  readonly text: string;
}

/** An edited text, and which chunks of the old one gave way to how many new ones. */
export interface Splice {
  readonly text: SourceText;
  readonly first: number;
  readonly removed: number;
  readonly added: number;
}

/** How the chunks of an edited text come from those of the one before. */
interface Replaced extends Omit<Splice, 'text'> {
  readonly before: readonly Chunk[];
  /** Units that the text grew by. */
  readonly longer: number;
}

/**
 * A text that never changes, in chunks of about 256 lines; an edit makes a new one that shares the chunks not touched.
 * Lines end with LF, CRLF or CR. A byte-order mark belongs to line 0 and counts as its first character (readers of
 * files should take it off); the parser treats it as a blank.
 */
export class SourceText {
  readonly chunks: readonly Chunk[];
  /** UTF-16 units, line endings and all. */
  readonly length: number;
  /** For each chunk its first line; one more at the end for the whole. */
  readonly #firstLines: Uint32Array;
  /** The same for offsets; an edit needs none. */
  #offsets: Uint32Array | null = null;
  #lastFound = 0;

  private constructor(
    chunks: readonly Chunk[],
    /** Length of the first text, which chunks not yet edited still point into. */
    private readonly kept: number,
    /** The edit that this text comes from. */
    readonly edited: Replaced | null = null,
    before?: SourceText,
  ) {
    this.chunks = chunks;
    this.#firstLines =
      edited && before ? sumsAfter(before.#firstLines, edited, chunks) : sums(chunks, linesOf);
    this.length = edited && before ? before.length + edited.longer : total(chunks);
  }

  static from(text: string): SourceText {
    return new SourceText(cutIntoChunks(text, { last: true, copy: false }), text.length);
  }

  /**
   * A text that stays where it is: what is plain in it is read again when somebody asks for it. null: it is not in the
   * encoding that `bytes` decodes.
   */
  static fromBytes(bytes: StoredBytes): SourceText | null {
    const chunks = chunksOfBytes(bytes);
    return chunks && new SourceText(chunks, 0);
  }

  get lineCount(): number {
    return this.firstLine(this.chunks.length);
  }

  /** The line without its ending; '' outside the text. */
  line(index: number): string {
    const at = this.chunkOf(index);
    return this.chunks[at]?.line(index - this.firstLine(at)) ?? '';
  }

  /** UTF-16 offset of the line in the whole text. */
  lineStart(index: number): number {
    if (index >= this.lineCount) return this.length;
    const at = this.chunkOf(index);
    return (this.offsets[at] ?? 0) + (this.chunks[at]?.lineStart(index - this.firstLine(at)) ?? 0);
  }

  lineEnding(index: number): LineEnding {
    const at = this.chunkOf(index);
    return this.chunks[at]?.ending(index - this.firstLine(at)) ?? '';
  }

  /** Line and character of an offset in the whole text; inside a line ending: the end of its line. */
  positionAt(offset: number): { readonly line: number; readonly character: number } {
    const wanted = Math.max(0, Math.min(offset, this.length));
    const at = Math.max(0, findLast(this.offsets, this.chunks.length - 1, wanted));
    const chunk = this.chunks[at] as Chunk;
    const inside = wanted - (this.offsets[at] ?? 0);
    const line = chunk.lineAt(inside);
    return {
      line: this.firstLine(at) + line,
      character: Math.min(inside, chunk.contentEnd(line)) - chunk.lineStart(line),
    };
  }

  /** The first `length` characters. */
  start(length: number): string {
    let start = '';
    for (const chunk of this.chunks) {
      if (start.length >= length) break;
      start += chunk.text.slice(0, length - start.length);
    }
    return start;
  }

  toString(): string {
    return this.chunks.map((chunk) => chunk.text).join('');
  }

  edit(change: TextChange): SourceText {
    return this.splice(change).text;
  }

  /** An edit that also says which chunks it replaced. */
  splice(change: TextChange): Splice {
    const from = this.place(change.line, change.start);
    const to = this.place(change.endLine, change.end);
    const isInOrder = from.chunk < to.chunk || (from.chunk === to.chunk && from.inside <= to.inside);
    const [start, end] = isInOrder ? [from, to] : [from, from];
    let first = start.chunk;
    let last = end.chunk;
    let middle = (this.chunks[first]?.text.slice(0, start.inside) ?? '') + change.text;
    middle += this.chunks[last]?.text.slice(end.inside) ?? '';
    const after = () => this.chunks[last + 1]?.text ?? '';
    if (middle === '') {
      middle = after();
      if (middle !== '') last++;
    }
    // CR and LF that come to stand side by side across a border are one line ending.
    const before = this.chunks[first - 1]?.text ?? '';
    if (startsWithFeed(middle) && endsWithReturn(before)) {
      middle = before + middle;
      first--;
    }
    if (endsWithReturn(middle) && startsWithFeed(after())) {
      middle += after();
      last++;
    }
    const added = cutIntoChunks(middle, { last: last === this.chunks.length - 1, copy: true });
    const removed = last - first + 1;
    const chunks = replaced(this.chunks, first, removed, added);
    const longer = total(added) - total(this.chunks.slice(first, last + 1));
    const edited = { before: this.chunks, first, removed, added: added.length, longer };
    const text = new SourceText(chunks, this.kept, edited, this);
    return text.length * 2 < this.kept
      ? text.recut(this.chunks.length)
      : { text, first, removed, added: added.length };
  }

  /** Lets go of a first text of which little is left: a splice of everything. */
  private recut(removed: number): Splice {
    const chunks = cutIntoChunks(this.toString(), { last: true, copy: true });
    return { text: new SourceText(chunks, 0), first: 0, removed, added: chunks.length };
  }

  /** Index of the chunk that holds the line; clamped. */
  chunkOf(line: number): number {
    const guess = this.#lastFound;
    if (line >= this.firstLine(guess) && line < this.firstLine(guess + 1)) return guess;
    const found = findLast(this.#firstLines, this.chunks.length - 1, line);
    this.#lastFound = Math.max(0, found);
    return found;
  }

  firstLine(chunk: number): number {
    return this.#firstLines[chunk] ?? 0;
  }

  private place(line: number, character: number) {
    if (line >= this.lineCount) {
      const chunk = this.chunks.length - 1;
      return { chunk, inside: this.chunks[chunk]?.length ?? 0 };
    }
    const chunk = this.chunkOf(Math.max(0, line));
    const holder = this.chunks[chunk] as Chunk;
    const local = Math.max(0, line) - this.firstLine(chunk);
    const start = holder.lineStart(local);
    const wanted = line < 0 ? 0 : Math.max(0, character);
    return { chunk, inside: Math.min(start + wanted, holder.contentEnd(local)) };
  }

  private get offsets(): Uint32Array {
    this.#offsets ??= sums(this.chunks, (chunk) => chunk.length);
    return this.#offsets;
  }
}

function startsWithFeed(text: string): boolean {
  return text.charCodeAt(0) === code.lineFeed;
}

function endsWithReturn(text: string): boolean {
  return text.charCodeAt(text.length - 1) === code.carriageReturn;
}

function linesOf(chunk: Chunk): number {
  return chunk.lineCount;
}

/** What stands before each chunk, and before the end. */
function sums(chunks: readonly Chunk[], sizeOf: (chunk: Chunk) => number): Uint32Array {
  const all = new Uint32Array(chunks.length + 1);
  chunks.forEach((chunk, at) => {
    all[at + 1] = (all[at] ?? 0) + sizeOf(chunk);
  });
  return all;
}

/** First lines after an edit: looks at its own chunks only, and makes nothing where lines stay where they are. */
function sumsAfter(before: Uint32Array, { first, removed, added }: Replaced, chunks: readonly Chunk[]) {
  const fresh = sums(chunks.slice(first, first + added), linesOf);
  const start = before[first] ?? 0;
  if (added === removed && fresh.every((line, i) => start + line === before[first + i])) return before;
  const now = new Uint32Array(chunks.length + 1);
  now.set(before.subarray(0, first));
  fresh.forEach((line, i) => {
    now[first + i] = start + line;
  });
  const moved = added - removed;
  const by = (now[first + added] ?? 0) - (before[first + removed] ?? 0);
  for (let at = first + added + 1; at < now.length; at++) now[at] = (before[at - moved] ?? 0) + by;
  return now;
}

function total(chunks: readonly Chunk[]): number {
  return chunks.reduce((sum, { length }) => sum + length, 0);
}

function replaced(
  chunks: readonly Chunk[],
  first: number,
  removed: number,
  added: readonly Chunk[],
): readonly Chunk[] {
  if (added.length !== removed) return chunks.slice(0, first).concat(added, chunks.slice(first + removed));
  const all = chunks.slice();
  added.forEach((chunk, i) => {
    all[first + i] = chunk;
  });
  return all;
}

/** The last index up to `high` whose value is not above `wanted`; -1 where there is none. */
function findLast(values: Uint32Array, high: number, wanted: number): number {
  let low = 0;
  let top = high;
  if (wanted < (values[0] ?? 0)) return -1;
  while (low < top) {
    const middle = (low + top + 1) >> 1;
    if ((values[middle] ?? 0) <= wanted) low = middle;
    else top = middle - 1;
  }
  return low;
}
