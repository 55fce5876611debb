import { BlockCache } from './blockCache.ts';
import type { Chunk } from './chunk.ts';
import { type ChunkClasses, classifyChunk } from './chunkClasses.ts';
import type { Dialect } from './dialect.ts';
import { lineKind } from './lineClass.ts';
import { parseBlock } from './parseBlock.ts';
import { findProgram, type ProgramRange } from './programRange.ts';
import type { SourceText, TextChange } from './sourceText.ts';
import type { Block } from './tree.ts';

/** Blank, plain (see `lineClass.ts`), other. */
export type LineClass = 0 | 1 | 2;

/** A text in a dialect. It never changes; an edit makes a new one and looks at the touched chunks only. */
export class Source {
  readonly #program: ProgramRange;

  private constructor(
    readonly text: SourceText,
    readonly dialect: Dialect,
    private readonly classes: readonly ChunkClasses[],
    private readonly cache: BlockCache,
    /** How many chunks were looked at to make this one. */
    readonly chunksScanned: number,
  ) {
    this.#program = findProgram({
      lineCount: text.lineCount,
      kindOf: (line) => this.kindOf(line),
      percentLines: () => this.linesWith('hasPercent', (kind) => kind === lineKind.percent),
      hasFaults: (line) => parseBlock(text.line(line), dialect).faults.length > 0,
    });
  }

  static from(text: SourceText, dialect: Dialect): Source {
    const classes = text.chunks.map((chunk) => classifyChunk(chunk, dialect));
    return new Source(text, dialect, classes, new BlockCache(dialect), classes.length);
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
    return kind <= lineKind.plain ? (kind as LineClass) : 2;
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
    for (const line of this.linesWith('hasOther', (kind) => kind >= lineKind.other)) {
      if (this.isProgram(line)) yield line;
    }
  }

  /**
   * The chunks that hold lines of class 2, inside the program or not, with which of their lines (counted in the chunk)
   * those are: what is found in a chunk can be kept with it.
   */
  *otherChunks(): Iterable<{
    readonly chunk: Chunk;
    readonly firstLine: number;
    readonly isOther: (line: number) => boolean;
  }> {
    for (let at = 0; at < this.classes.length; at++) {
      const [classes, chunk] = [this.classes[at], this.text.chunks[at]];
      if (!classes?.hasOther || !chunk) continue;
      const { bytes } = classes;
      const isOther = (line: number) => (bytes[line] ?? 0) >= lineKind.other;
      yield { chunk, firstLine: this.text.firstLine(at), isOther };
    }
  }

  /**
   * Whether a G38.x or G31 word stands anywhere in the program. Behind one, a plain line can be a touch too: G38.x
   * is modal.
   */
  hasTouch(): boolean {
    for (const line of this.linesWith('hasTouch', (kind) => kind === lineKind.touch)) {
      if (this.isProgram(line)) return true;
    }
    return false;
  }

  edit(change: TextChange): Source {
    const { text, first, removed, added } = this.text.splice(change);
    const fresh = text.chunks.slice(first, first + added).map((chunk) => classifyChunk(chunk, this.dialect));
    const classes = [...this.classes.slice(0, first), ...fresh, ...this.classes.slice(first + removed)];
    return new Source(text, this.dialect, classes, this.cache, added);
  }

  /** The chunk with the line, for who reads plain lines in bulk with `scanPlainLine`. */
  chunkAt(line: number): { readonly chunk: Chunk; readonly firstLine: number } | null {
    const at = this.text.chunkOf(line);
    const chunk = this.text.chunks[at];
    return chunk ? { chunk, firstLine: this.text.firstLine(at) } : null;
  }

  private isProgram(line: number): boolean {
    return line >= this.#program.start && line < this.#program.end;
  }

  private kindOf(line: number): number {
    const at = this.text.chunkOf(line);
    return this.classes[at]?.bytes[line - this.text.firstLine(at)] ?? lineKind.blank;
  }

  private *linesWith(
    some: 'hasOther' | 'hasPercent' | 'hasTouch',
    wanted: (kind: number) => boolean,
  ): Iterable<number> {
    for (let at = 0; at < this.classes.length; at++) {
      const classes = this.classes[at];
      if (!classes?.[some]) continue;
      const first = this.text.firstLine(at);
      for (let line = 0; line < classes.bytes.length; line++) {
        if (wanted(classes.bytes[line] ?? 0)) yield first + line;
      }
    }
  }
}

function outsideProgram(text: string): Block {
  return { text, items: text === '' ? [] : [{ kind: 'stray', start: 0, end: text.length }], faults: [] };
}
