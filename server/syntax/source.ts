import { BlockCache } from './blockCache.ts';
import type { Chunk } from './chunk.ts';
import type { Dialect } from './dialect.ts';
import { lineKind } from './lineClass.ts';
import { longLinesIn, type NotableChunks, notableAfter, notableChunks } from './notableChunks.ts';
import { parseBlock } from './parseBlock.ts';
import { findProgram, type ProgramRange } from './programRange.ts';
import type { SourceText, TextChange } from './sourceText.ts';
import type { Block } from './tree.ts';

/** Blank, plain (see `lineClass.ts`), other. */
export type LineClass = 0 | 1 | 2;

interface OtherChunk {
  readonly chunk: Chunk;
  readonly firstLine: number;
  readonly isOther: (line: number) => boolean;
}

/** A text in a dialect. It never changes; an edit makes a new one and looks at the touched chunks only. */
export class Source {
  readonly #program: ProgramRange;
  #notable: NotableChunks | null;
  #otherChunks: readonly OtherChunk[] | null = null;

  private constructor(
    readonly text: SourceText,
    readonly dialect: Dialect,
    private readonly cache: BlockCache,
    /** How many chunks were looked at to make this one. */
    readonly chunksScanned: number,
    notable: NotableChunks | null = null,
  ) {
    this.#notable = notable;
    this.#program = findProgram({
      lineCount: text.lineCount,
      kindOf: (line) => this.kindOf(line),
      percentLines: () => this.linesOf([lineKind.percent]),
      hasFaults: (line) => parseBlock(text.line(line), dialect).faults.length > 0,
    });
  }

  static from(text: SourceText, dialect: Dialect): Source {
    return new Source(text, dialect, new BlockCache(dialect), text.chunks.length);
  }

  get lineCount(): number {
    return this.text.lineCount;
  }

  /** The first line of the program: lines before an opening `%` are none. */
  get programStart(): number {
    return this.#program.start;
  }

  /** The line behind the program's last: lines after a closing `%` are none. */
  get programEnd(): number {
    return this.#program.end;
  }

  /** 0 also for lines outside the program. */
  classOf(line: number): LineClass {
    if (!this.isProgram(line)) return 0;
    const kind = this.kindOf(line);
    if (kind === lineKind.blank) return 0;
    return kind < lineKind.other ? 1 : 2;
  }

  /**
   * The block of a line, parsed on demand and kept for a while. A line outside the program is one stray without a
   * fault; a line that is not there is an empty block.
   */
  block(line: number): Block {
    const at = this.text.chunkOf(line);
    const chunk = this.text.chunks[at];
    const local = line - this.text.firstLine(at);
    if (!chunk || local < 0 || local >= chunk.lineCount) return { text: '', items: [], faults: [] };
    return this.isProgram(line) ? this.cache.block(chunk, local) : outsideProgram(chunk.line(local));
  }

  /** Lines of class 2 in order; skips chunks that have none. */
  *otherLines(): Iterable<number> {
    for (const line of this.linesOf([lineKind.other, lineKind.percent, lineKind.touch])) {
      if (this.isProgram(line)) yield line;
    }
  }

  /**
   * The chunks that hold lines of class 2, inside the program or not, with which of their lines (counted in the chunk)
   * those are: what is found in a chunk can be kept with it.
   */
  otherChunks(): readonly OtherChunk[] {
    this.#otherChunks ??= this.notable.others.map((at) => {
      const chunk = this.text.chunks[at] as Chunk;
      return { chunk, firstLine: this.text.firstLine(at), isOther: (line) => !chunk.isPlain(line) };
    });
    return this.#otherChunks;
  }

  /** Lines of class 1 whose N number has more than five digits; such a number is a fault in some dialects. */
  longNumberLines(): { readonly first: number | null; readonly count: number } {
    let first: number | null = null;
    let count = 0;
    for (const at of this.notable.long) {
      const start = this.text.firstLine(at);
      const lines = longLinesIn(this.text.chunks[at] as Chunk, {
        from: this.programStart - start,
        to: this.programEnd - start,
      });
      first ??= lines.first === null ? null : start + lines.first;
      count += lines.count;
    }
    return { first, count };
  }

  /**
   * Whether a G38.x or G31 word stands anywhere in the program. Behind one, a plain line can be a touch too: G38.x
   * is modal.
   */
  hasTouch(): boolean {
    for (const line of this.linesOf([lineKind.touch])) if (this.isProgram(line)) return true;
    return false;
  }

  edit(change: TextChange): Source {
    const splice = this.text.splice(change);
    const notable = this.#notable && notableAfter(this.#notable, splice);
    return new Source(splice.text, this.dialect, this.cache, splice.added, notable);
  }

  /** The chunk with the line, and the line behind its last that is in the program. */
  chunkAt(line: number): { readonly chunk: Chunk; readonly firstLine: number; readonly end: number } | null {
    const at = this.text.chunkOf(line);
    const chunk = this.text.chunks[at];
    const firstLine = this.text.firstLine(at);
    return chunk ? { chunk, firstLine, end: Math.min(firstLine + chunk.lineCount, this.programEnd) } : null;
  }

  private get notable(): NotableChunks {
    this.#notable ??= notableChunks(this.text.chunks, 0, this.text.chunks.length);
    return this.#notable;
  }

  private isProgram(line: number): boolean {
    return line >= this.#program.start && line < this.#program.end;
  }

  private kindOf(line: number): number {
    const at = this.text.chunkOf(line);
    return this.text.chunks[at]?.kind(line - this.text.firstLine(at)) ?? lineKind.blank;
  }

  private *linesOf(wanted: readonly number[]): Iterable<number> {
    for (const at of this.notable.others) {
      const chunk = this.text.chunks[at];
      if (!chunk || !wanted.some((kind) => chunk.has(kind))) continue;
      const first = this.text.firstLine(at);
      for (let line = 0; line < chunk.lineCount; line++) {
        if (wanted.includes(chunk.kind(line))) yield first + line;
      }
    }
  }
}

function outsideProgram(text: string): Block {
  return { text, items: text === '' ? [] : [{ kind: 'stray', start: 0, end: text.length }], faults: [] };
}
