import type { Range, SemanticTokens, SemanticTokensDelta, SemanticTokensEdit } from 'vscode-languageserver';
import type { Source } from '../syntax/source.ts';
import type { Program } from '../workspace/program.ts';
import type { TokenAmount } from './blockTokens.ts';
import { TokenCache } from './chunkTokens.ts';
import { columnIn, type Encoding } from './positionEncoding.ts';

/**
 * Most tokens of a whole file: 200,000 are 5 MB on the wire. Behind them the grammar's colours stand alone; asked for by
 * range, as editors do for what is on the screen, every line has its tokens at any size.
 */
export const mostTokens = 200_000;

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
    const targets = this.cache.targets(source);
    const data: number[] = [];
    const before = { line: 0, start: 0 };
    if (from >= to) return data;
    for (let at = source.text.chunkOf(from); source.text.firstLine(at) < to; at++) {
      if (at >= source.text.chunks.length) break;
      const first = source.text.firstLine(at);
      const tokens = this.cache.tokens(source, at, targets);
      for (let each = 0; each < tokens.length; each += 5) {
        const line = first + (tokens[each] ?? 0);
        if (line < from || line >= to) continue;
        const [start, length] = this.#placed(source, line, tokens[each + 1] ?? 0, tokens[each + 2] ?? 0);
        const sameLine = line === before.line;
        data.push(line - before.line, sameLine ? start - before.start : start, length);
        data.push(tokens[each + 3] ?? 0, tokens[each + 4] ?? 0);
        before.line = line;
        before.start = start;
        if (data.length >= most * 5) return data;
      }
    }
    return data;
  }

  #placed(source: Source, line: number, start: number, length: number): readonly [number, number] {
    if (this.#encoding === 'utf-16') return [start, length];
    const text = source.text.line(line);
    const from = columnIn(text, start, this.#encoding);
    return [from, columnIn(text, start + length, this.#encoding) - from];
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
