import { Chunk } from './chunk.ts';
import {
  type Behind,
  LineMemory,
  linesPerChunk,
  mostLines,
  type ScannedLines,
  scanLines,
} from './scanLines.ts';
import { textBytes } from './textBytes.ts';

/** Characters that are made bytes of at once. */
const windowLength = 1 << 18;
/** Chunks that share memory. */
const chunksAtOnce = 64;

/**
 * Cuts a text into chunks at line ends. `last`: the text runs to the end of the whole text, so what stands behind the
 * last line ending is a line, even an empty one. `copy`: chunks get memory of their own and don't keep `text` alive.
 */
export function cutIntoChunks(
  text: string,
  { last, copy }: { readonly last: boolean; readonly copy: boolean },
): Chunk[] {
  const behind = last ? 'nothing' : 'chunk';
  const chunks: Chunk[] = [];
  const chunk = (slice: string, lines: ScannedLines) =>
    chunks.push(new Chunk(copy ? flatCopy(slice) : slice, lines));
  const single = oneChunk(text, behind);
  if (single) chunk(text, single);
  const memory = new LineMemory(single ? 0 : chunksAtOnce);
  let width = windowLength;
  for (let from = 0; !single && from <= text.length; ) {
    const to = Math.min(text.length, from + width);
    const window = text.slice(from, to);
    const used = cutWindow(window, to < text.length ? 'more' : behind, memory, chunk);
    if (to === text.length) break;
    // Not a single chunk in it: a line is very long.
    if (used === 0) width *= 2;
    from += used;
  }
  return chunks;
}

function oneChunk(text: string, behind: Behind): ScannedLines | null {
  if (text.length > windowLength) return null;
  const whole = { from: 0, to: text.length, behind, most: mostLines };
  const lines = scanLines(textBytes(text), whole, new LineMemory(1));
  return lines && (behind === 'nothing' ? lines.isLast : lines.end === text.length) ? lines : null;
}

/** Gives how many characters became chunks. */
function cutWindow(
  window: string,
  behind: Behind,
  memory: LineMemory,
  chunk: (slice: string, lines: ScannedLines) => void,
): number {
  const bytes = textBytes(window);
  let from = 0;
  for (;;) {
    const stretch = { from, to: window.length, behind, most: linesPerChunk };
    const lines = scanLines(bytes, stretch, memory);
    if (!lines) return from;
    chunk(window.slice(from, lines.end), lines);
    from = lines.end;
    if (lines.isLast) return from;
  }
}

/** The same text in memory of its own: a slice of a joined string points into the join, not into the first text. */
function flatCopy(text: string): string {
  return ` ${text}`.slice(1);
}
