import type { Chunk } from '../syntax/chunk.ts';
import type { Source } from '../syntax/source.ts';
import { blockTokens, type TokenAmount } from './blockTokens.ts';
import { modifierBits, typeIndex } from './tokenLegend.ts';

/** Line within the chunk, start, length, type, modifiers: five numbers a token. */
export type ChunkTokens = readonly number[];

interface Kept {
  /** What the tokens rest on beside the chunk's own text. */
  readonly key: string;
  readonly tokens: ChunkTokens;
  /** N numbers that its GOTOs name. */
  readonly targets: readonly number[];
  labelled: { readonly targets: string; readonly tokens: ChunkTokens } | null;
}

/** Tokens chunk by chunk: a chunk that no edit touched is not looked at again. */
export class TokenCache {
  readonly #chunks = new WeakMap<Chunk, Kept>();
  readonly #amount: TokenAmount;
  /** Chunks read since the start, for whoever measures what an edit costs. */
  chunksRead = 0;

  constructor(amount: TokenAmount) {
    this.#amount = amount;
  }

  /** Every N number that some GOTO of the program names, sorted. */
  targets(source: Source): readonly number[] {
    if (!source.dialect.macroFlow) return [];
    const found = new Set<number>();
    for (const [at] of source.text.chunks.entries())
      for (const target of this.#kept(source, at).targets) found.add(target);
    return [...found].sort((a, b) => a - b);
  }

  /** Tokens of one chunk; `targets` as `targets` gives them. */
  tokens(source: Source, at: number, targets: readonly number[]): ChunkTokens {
    const kept = this.#kept(source, at);
    if (targets.length === 0) return kept.tokens;
    const key = targets.join();
    if (kept.labelled?.targets !== key) {
      kept.labelled = { targets: key, tokens: withLabels(source, at, kept.tokens, new Set(targets)) };
    }
    return kept.labelled.tokens;
  }

  #kept(source: Source, at: number): Kept {
    const chunk = source.text.chunks[at] as Chunk;
    const first = source.text.firstLine(at);
    const from = Math.min(Math.max(0, source.programStart - first), chunk.lineCount);
    const to = Math.max(0, Math.min(source.programEnd - first, chunk.lineCount));
    const key = `${source.dialect.name} ${from} ${to}`;
    const known = this.#chunks.get(chunk);
    if (known?.key === key) return known;
    this.chunksRead++;
    const kept: Kept = {
      key,
      ...read(source, first + from, first + to, first, this.#amount),
      labelled: null,
    };
    this.#chunks.set(chunk, kept);
    return kept;
  }
}

function read(source: Source, from: number, to: number, first: number, amount: TokenAmount) {
  const tokens: number[] = [];
  const targets: number[] = [];
  const least = amount === 'everything' ? 1 : 2;
  for (let line = from; line < to; line++) {
    if (source.classOf(line) < least) continue;
    const block = source.block(line);
    for (const { start, end, type, modifiers } of blockTokens(block, source.dialect, amount))
      tokens.push(line - first, start, end - start, typeIndex(type), modifierBits(modifiers));
    for (const item of block.items)
      if (item.kind === 'flow' && item.form === 'goto' && item.target.kind === 'number')
        targets.push(item.target.value);
  }
  return { tokens, targets };
}

/** An N number that something jumps to is a label; the others only count lines. */
function withLabels(
  source: Source,
  at: number,
  tokens: ChunkTokens,
  targets: ReadonlySet<number>,
): ChunkTokens {
  const chunk = source.text.chunks[at] as Chunk;
  const first = source.text.firstLine(at);
  const labels: number[][] = [];
  for (let local = 0; local < chunk.lineCount; local++) {
    const number = firstNumber.exec(chunk.line(local))?.[1];
    if (number === undefined || !targets.has(Number(number))) continue;
    const span = source.block(first + local).lineNumber;
    if (span) labels.push([local, span.start, span.end - span.start, labelType, definition]);
  }
  if (labels.length === 0) return tokens;
  const labelled = new Set(labels.map(([line, start]) => `${line} ${start}`));
  const all = [...fives(tokens)].filter(([line, start]) => !labelled.has(`${line} ${start}`));
  all.push(...labels);
  return all.sort((a, b) => (a[0] ?? 0) - (b[0] ?? 0) || (a[1] ?? 0) - (b[1] ?? 0)).flat();
}

function* fives(tokens: ChunkTokens): Iterable<readonly number[]> {
  for (let at = 0; at < tokens.length; at += 5) yield tokens.slice(at, at + 5);
}

const firstNumber = /^[\s/\d]*n\s*(\d+)/i;
const labelType = typeIndex('label');
const definition = modifierBits(['definition']);
