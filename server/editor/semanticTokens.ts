import type { Range, SemanticTokens, SemanticTokensDelta, SemanticTokensEdit } from 'vscode-languageserver';
import type { Source } from '../syntax/source.ts';
import type { Program } from '../workspace/program.ts';
import type { TokenAmount } from './blockTokens.ts';
import { type ChunkTokens, TokenCache } from './chunkTokens.ts';
import { columnIn, type Encoding } from './positionEncoding.ts';

/**
 * Most tokens of a whole file: more than a megabyte on the wire. Behind them the grammar's colours stand alone; asked for by
 * range, as editors do for what is on the screen, every line has its tokens at any size.
 */
export const mostTokens = 100_000;

/** Answers of that many documents are kept for the deltas of the next. */
const mostKept = 16;

/** Semantic tokens of a client's documents, and what it was told last of each. */
export class SemanticTokensOf {
  readonly cache: TokenCache;
  readonly #encoding: Encoding;
  readonly #told = new Map<string, { readonly id: string; readonly data: readonly number[] }>();
  #lastId = 0;

  constructor(options: { readonly amount: TokenAmount; readonly encoding: Encoding }) {
    this.cache = new TokenCache(options.amount);
    this.#encoding = options.encoding;
  }

  full({ source, uri }: Program): SemanticTokens & { readonly resultId: string } {
    const data = this.#data(source, 0, source.lineCount, mostTokens);
    return { resultId: this.#remember(uri, data), data };
  }

  /** What changed since the answer of that id; everything where it is not known any more. */
  delta(program: Program, previous: string): SemanticTokens | SemanticTokensDelta {
    const old = this.#told.get(program.uri);
    const { data, resultId } = this.full(program);
    if (old?.id !== previous) return { resultId, data };
    return { resultId, edits: editsBetween(old.data, data) };
  }

  range({ source }: Program, { start, end }: Range): SemanticTokens {
    const to = Math.min(source.lineCount, end.line + 1);
    return { data: this.#data(source, Math.max(0, start.line), to, mostTokens) };
  }

  #remember(uri: string, data: readonly number[]): string {
    const id = String(++this.#lastId);
    this.#told.delete(uri);
    this.#told.set(uri, { id, data });
    const [oldest] = this.#told.keys();
    if (this.#told.size > mostKept && oldest !== undefined) this.#told.delete(oldest);
    return id;
  }

  /** Lines from `from` up to `to`, as the protocol writes them: each token from the one before it. */
  #data(source: Source, from: number, to: number, most: number): number[] {
    const written = new Written(source, this.#encoding);
    if (from >= to) return written.data;
    const targets = this.cache.targets(source);
    const { text } = source;
    for (let at = text.chunkOf(from); at < text.chunks.length && text.firstLine(at) < to; at++) {
      const tokens = this.cache.tokens(source, at, targets);
      written.add(tokens, text.firstLine(at), from, to);
      if (written.data.length >= most * 5) return written.data.slice(0, most * 5);
    }
    return written.data;
  }
}

/** Tokens as they go out, each place counted from the token before it. */
class Written {
  readonly data: number[] = [];
  readonly #source: Source;
  readonly #encoding: Encoding;
  #line = 0;
  #start = 0;

  constructor(source: Source, encoding: Encoding) {
    this.#source = source;
    this.#encoding = encoding;
  }

  /** Those of a chunk whose lines are from `from` up to `to`. */
  add(tokens: ChunkTokens, first: number, from: number, to: number): void {
    const { data } = this;
    for (let at = 0; at < tokens.length; at += 5) {
      const line = first + (tokens[at] as number);
      if (line < from || line >= to) continue;
      const offset = tokens[at + 1] as number;
      const start = this.#column(line, offset);
      const length = this.#column(line, offset + (tokens[at + 2] as number)) - start;
      const before = line === this.#line ? this.#start : 0;
      data.push(
        line - this.#line,
        start - before,
        length,
        tokens[at + 3] as number,
        tokens[at + 4] as number,
      );
      this.#line = line;
      this.#start = start;
    }
  }

  #column(line: number, offset: number): number {
    return this.#encoding === 'utf-16'
      ? offset
      : columnIn(this.#source.text.line(line), offset, this.#encoding);
  }
}

/** One edit at most: what the two have in common at their ends stays. */
export function editsBetween(old: readonly number[], now: readonly number[]): SemanticTokensEdit[] {
  const shorter = Math.min(old.length, now.length);
  let start = 0;
  while (start < shorter && old[start] === now[start]) start++;
  let tail = 0;
  while (tail < shorter - start && old[old.length - 1 - tail] === now[now.length - 1 - tail]) tail++;
  const deleteCount = old.length - start - tail;
  if (deleteCount === 0 && now.length === old.length) return [];
  return [{ start, deleteCount, data: now.slice(start, now.length - tail) }];
}
