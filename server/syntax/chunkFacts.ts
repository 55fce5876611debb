import type { Chunk } from './chunk.ts';
import type { Dialect } from './dialect.ts';
import type { Source } from './source.ts';

/**
 * Something that can be found in the lines of class 2 of a chunk alone. What was found is kept with the chunk, so that
 * an edit looks at the touched chunks only. Lines are counted in the chunk; they may lie outside of the program.
 */
export class ChunkFacts<T> {
  readonly #known = new WeakMap<Chunk, { readonly dialect: Dialect; readonly fact: T | null }>();
  readonly #find: (chunk: Chunk, lines: readonly number[], dialect: Dialect) => T | null;

  /** @param find null: nothing there */
  constructor(find: (chunk: Chunk, lines: readonly number[], dialect: Dialect) => T | null) {
    this.#find = find;
  }

  /** In the order of the text. */
  *in(source: Source): Iterable<{ readonly firstLine: number; readonly fact: T }> {
    for (const { chunk, firstLine, isOther } of source.otherChunks()) {
      const fact = this.#of(chunk, isOther, source.dialect);
      if (fact !== null) yield { firstLine, fact };
    }
  }

  /** Finds all, for `in` to have it at hand; yields after each chunk that had to be looked at. */
  *lookThrough(source: Source): Generator<undefined, void> {
    for (const { chunk, isOther } of source.otherChunks()) {
      if (this.#known.get(chunk)?.dialect === source.dialect) continue;
      this.#of(chunk, isOther, source.dialect);
      yield undefined;
    }
  }

  #of(chunk: Chunk, isOther: (line: number) => boolean, dialect: Dialect): T | null {
    const known = this.#known.get(chunk);
    if (known?.dialect === dialect) return known.fact;
    const lines: number[] = [];
    for (let line = 0; line < chunk.lineCount; line++) if (isOther(line)) lines.push(line);
    const fact = this.#find(chunk, lines, dialect);
    this.#known.set(chunk, { dialect, fact });
    return fact;
  }
}
