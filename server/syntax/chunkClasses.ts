import type { Chunk } from './chunk.ts';
import type { Dialect } from './dialect.ts';
import { classifyLine, lineKind } from './lineClass.ts';

/** The class bytes of a chunk's lines, and what of them is there at all. */
export interface ChunkClasses {
  readonly bytes: Uint8Array;
  readonly hasOther: boolean;
  readonly hasPercent: boolean;
  readonly hasTouch: boolean;
}

export function classifyChunk(chunk: Chunk, dialect: Dialect): ChunkClasses {
  const bytes = new Uint8Array(chunk.lineCount);
  let kinds = 0;
  for (let line = 0; line < bytes.length; line++) {
    const kind = classifyLine(chunk.text, chunk.lineStart(line), chunk.contentEnd(line), dialect);
    bytes[line] = kind;
    kinds |= 1 << kind;
  }
  const has = (kind: number) => (kinds & (1 << kind)) !== 0;
  return {
    bytes,
    hasOther: has(lineKind.other) || has(lineKind.percent) || has(lineKind.touch),
    hasPercent: has(lineKind.percent),
    hasTouch: has(lineKind.touch),
  };
}
