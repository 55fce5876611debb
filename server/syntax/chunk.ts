import { code } from './charCodes.ts';
import { lineKind } from './lineClass.ts';
import type { PlainTotals } from './plainTotals.ts';
import type { ScannedLines } from './scanLines.ts';

export type LineEnding = '' | '\n' | '\r\n' | '\r';

/** A text that is kept elsewhere and comes when it is asked for. */
export interface LaterText {
  readonly length: number;
  read(): string;
}

/** Some lines of a text with their endings; only the last line of a text has none. Never changes. */
export class Chunk {
  /** UTF-16 units. */
  readonly length: number;
  readonly lineCount: number;
  /** What its lines leave behind; null where not all of them are plain or blank. */
  readonly totals: PlainTotals | null;
  /** From `at` on offsets of the lines in `text`, the first being 0. */
  readonly #starts: Uint32Array;
  readonly #kinds: Uint8Array;
  readonly #at: number;
  readonly #kindsMet: number;
  readonly #text: string | LaterText;

  constructor(text: string | LaterText, lines: ScannedLines) {
    this.length = text.length;
    this.lineCount = lines.count;
    this.totals = lines.totals;
    this.#starts = lines.starts;
    this.#kinds = lines.kinds;
    this.#at = lines.at;
    this.#kindsMet = lines.kindsMet;
    this.#text = text;
  }

  get text(): string {
    return typeof this.#text === 'string' ? this.#text : this.#text.read();
  }

  /** The class of a line, see `lineKind`; blank outside the chunk. */
  kind(line: number): number {
    return line >= 0 && line < this.lineCount ? (this.#kinds[this.#at + line] as number) : lineKind.blank;
  }

  /** Whether any line is of that class (of `lineKind`). */
  has(kind: number): boolean {
    return (this.#kindsMet & (1 << kind)) !== 0;
  }

  /** Plain or blank. */
  isPlain(line: number): boolean {
    return this.kind(line) < lineKind.other;
  }

  line(index: number): string {
    return this.text.slice(this.lineStart(index), this.contentEnd(index));
  }

  lineStart(index: number): number {
    return index >= 0 && index < this.lineCount ? (this.#starts[this.#at + index] as number) : this.length;
  }

  /** Where the line ends, its ending left out. */
  contentEnd(index: number): number {
    return this.lineStart(index + 1) - this.ending(index).length;
  }

  ending(index: number): LineEnding {
    const { text } = this;
    const start = this.lineStart(index);
    const end = this.lineStart(index + 1);
    const last = end > start ? text.charCodeAt(end - 1) : 0;
    if (last === code.carriageReturn) return '\r';
    if (last !== code.lineFeed) return '';
    return end - 1 > start && text.charCodeAt(end - 2) === code.carriageReturn ? '\r\n' : '\n';
  }

  /** The last line inside the chunk that begins at or before `offset`. */
  lineAt(offset: number): number {
    let low = 0;
    let high = this.lineCount - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.lineStart(middle) <= offset) low = middle;
      else high = middle - 1;
    }
    return low;
  }
}
