import type { Chunk } from './chunk.ts';
import type { Dialect } from './dialect.ts';
import { parseBlock } from './parseBlock.ts';
import type { Block } from './tree.ts';

const mostChunks = 64;

/** Blocks by chunk, so that they survive edits elsewhere; the chunk used longest ago goes first. */
export class BlockCache {
  readonly #chunks = new Map<Chunk, (Block | undefined)[]>();
  #last: Chunk | null = null;
  #blocks: (Block | undefined)[] = [];

  constructor(readonly dialect: Dialect) {}

  block(chunk: Chunk, line: number): Block {
    if (chunk !== this.#last) this.turnTo(chunk);
    const known = this.#blocks[line];
    if (known) return known;
    const block = parseBlock(chunk.line(line), this.dialect);
    this.#blocks[line] = block;
    return block;
  }

  private turnTo(chunk: Chunk): void {
    this.#blocks = this.#chunks.get(chunk) ?? [];
    this.#last = chunk;
    this.#chunks.delete(chunk);
    this.#chunks.set(chunk, this.#blocks);
    if (this.#chunks.size <= mostChunks) return;
    for (const oldest of this.#chunks.keys()) {
      this.#chunks.delete(oldest);
      return;
    }
  }
}
