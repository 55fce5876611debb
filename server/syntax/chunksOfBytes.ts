import { code } from './charCodes.ts';
import { Chunk, type LaterText } from './chunk.ts';
import { cutIntoChunks } from './cutIntoChunks.ts';
import { LineMemory, prepareForLongText, type ScannedLines, scanLines } from './scanLines.ts';

/** Stored bytes are no longer those that the text was made of. */
export class LostText extends Error {}

/** The bytes of a text, in an encoding that ASCII is part of; they may be read at any time. */
export interface StoredBytes {
  /**
   * Fills `into` with the bytes from `from` on, or as many as there are; gives how many.
   * @throws {LostText} they have changed
   */
  read(into: Uint8Array, from: number): number;
  /** null: not in this encoding. */
  decode(bytes: Uint8Array): string | null;
}

/** Small enough to stay in a processor's cache from the read to the last look at it. */
const pieceLength = 1 << 20;

/** Nobody types in such a text, so its chunks may be long: there is less to keep and to look at. */
const linesPerChunk = 1024;
const chunksAtOnce = 16;

/** Chunks of a text that is never whole in memory: of its plain chunks nothing is kept but what they say. */
export function chunksOfBytes(stored: StoredBytes): Chunk[] | null {
  prepareForLongText();
  const chunks: Chunk[] = [];
  const memory = new LineMemory(chunksAtOnce, linesPerChunk);
  let piece = new Uint8Array(pieceLength + 1);
  let start = 0;
  let kept = 0;
  for (;;) {
    const room = piece.length - 1 - kept;
    const read = stored.read(piece.subarray(kept, kept + room), start + kept);
    const filled = kept + read;
    piece[filled] = code.lineFeed;
    const used = cutPiece({ stored, piece, start, filled, isLast: read < room }, memory, chunks);
    if (used === null) return null;
    if (read < room) return chunks;
    // Not a single chunk in it: a line is very long.
    if (used === 0) piece = longer(piece);
    else piece.copyWithin(0, used, filled);
    start += used;
    kept = filled - used;
  }
}

interface Piece {
  readonly stored: StoredBytes;
  readonly piece: Uint8Array;
  /** Where it begins in the whole text. */
  readonly start: number;
  readonly filled: number;
  readonly isLast: boolean;
}

/** Gives how many bytes became chunks; null: they are not in the encoding. */
function cutPiece(
  { stored, piece, start, filled, isLast }: Piece,
  memory: LineMemory,
  chunks: Chunk[],
): number | null {
  let from = 0;
  for (;;) {
    const behind = isLast ? 'nothing' : 'more';
    const lines = scanLines(piece, { from, to: filled, behind, most: linesPerChunk }, memory);
    if (!lines) return from;
    if (lines.totals && !lines.outsideAscii)
      chunks.push(new Chunk(new StoredText(stored, start + from, lines.end - from), lines));
    else {
      const text = stored.decode(piece.subarray(from, lines.end));
      if (text === null) return null;
      for (const chunk of textChunks(text, lines)) chunks.push(chunk);
    }
    from = lines.end;
    if (lines.isLast) return from;
  }
}

/** Bytes and UTF-16 units count differently outside ASCII: such lines are looked at once more. */
function textChunks(text: string, lines: ScannedLines): readonly Chunk[] {
  return lines.outsideAscii
    ? cutIntoChunks(text, { last: lines.isLast, copy: false })
    : [new Chunk(text, lines)];
}

function longer(bytes: Uint8Array): Uint8Array<ArrayBuffer> {
  const copy = new Uint8Array(bytes.length * 2);
  copy.set(bytes);
  return copy;
}

/** ASCII text in stored bytes. The one read last is kept: who asks for one line of it often asks for the next. */
class StoredText implements LaterText {
  static #last: StoredText | null = null;
  static #text = '';

  constructor(
    private readonly stored: StoredBytes,
    private readonly from: number,
    readonly length: number,
  ) {}

  read(): string {
    if (StoredText.#last === this) return StoredText.#text;
    const bytes = new Uint8Array(this.length);
    const read = this.stored.read(bytes, this.from);
    const text = read === this.length ? this.stored.decode(bytes) : null;
    if (text === null) throw new LostText('its text has changed');
    StoredText.#last = this;
    StoredText.#text = text;
    return text;
  }
}
