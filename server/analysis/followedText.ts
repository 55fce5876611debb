import type { Chunk } from '../syntax/chunk.ts';
import type { Source } from '../syntax/source.ts';
import type { SourceText } from '../syntax/sourceText.ts';
import { chunksPerLeap, type Leap } from './leaps.ts';
import type { Passage } from './passage.ts';

/** What is kept with a chunk for as long as it is part of the text that is followed. */
export class FollowedChunk {
  /** In the text that is followed now; -1 before it was part of any. */
  firstLine = -1;
  /** The part of the chunk that belongs to the program; passages hold for this part alone. */
  from = 0;
  to: number;
  /** Local line → the name of the line. Most chunks have none, or one: nothing is made before it is needed. */
  names: Map<number, number> | null = null;
  /** What was run here last: most often what is asked for next. */
  latest: Passage | null = null;
  /** By key, what else was run here. */
  passages: Map<number, Passage[]> | null = null;

  /** What this chunk and those behind it did together. */
  leap: Leap | null = null;

  constructor(readonly chunk: Chunk) {
    this.to = chunk.lineCount;
  }

  /** Takes the part that belongs to the program; false: it was another one. */
  isCutTo(programStart: number, programEnd: number): boolean {
    const from = Math.max(0, programStart);
    const to = Math.min(this.chunk.lineCount, programEnd);
    const isSame = from === this.from && to === this.to;
    this.from = from;
    this.to = to;
    return isSame;
  }

  forgetPassages(): void {
    this.passages = null;
    this.latest = null;
  }
}

/** Lines that an edit may replace so that those it left as they were keep their names; behind it all are given anew. */
const mostCompared = 20_000;

/**
 * The texts that run together, in whatever version is followed now, and a name for each of their lines that a state may
 * speak of. Names are numbers that stay with their lines when lines above come or go, so that a state is the same
 * before and after.
 */
export class FollowedText {
  readonly chunks: FollowedChunk[] = [];
  /** Goes up with each turn that moves a line. */
  moves = 0;
  #sources: readonly Source[] = [];
  /** Those that `chunks` stand for. */
  #wanted: readonly Chunk[] = [];
  readonly #known = new WeakMap<Chunk, FollowedChunk>();
  readonly #homes: FollowedChunk[] = [];
  readonly #locals: number[] = [];

  /** Turns to another version; chunks that it shares with the last one keep all that is known of them. */
  turnTo(sources: readonly Source[]): void {
    if (sources.length === this.#sources.length && sources.every((each, i) => each === this.#sources[i]))
      return;
    const [own] = sources;
    const wanted = sources.length === 1 && own ? own.text.chunks : sources.flatMap(({ text }) => text.chunks);
    const { first, kept } = sameAs(this.#wanted, wanted, own?.text.edited ?? null);
    const fresh = wanted.slice(first, wanted.length - kept).map((chunk) => this.#followed(chunk));
    const gone = this.#replace(first, this.#wanted.length - kept - first, fresh);
    this.#forgetLeaps(first - chunksPerLeap, first + fresh.length);
    if (isOneOfSameLines(this.#sources, sources)) this.#place(sources, first, first + fresh.length);
    else {
      this.moves++;
      this.#place(sources, 0, this.chunks.length);
    }
    this.#sources = sources;
    this.#wanted = wanted;
    this.#handOver(gone, fresh);
  }

  /** Index of the chunk that holds the line; clamped. */
  indexOf(line: number): number {
    let first = 0;
    let above = 0;
    for (const { text } of this.#sources) {
      if (line < above + text.lineCount) return first + Math.max(0, text.chunkOf(line - above));
      first += text.chunks.length;
      above += text.lineCount;
    }
    return Math.max(0, first - 1);
  }

  /** The name of a line; a negative line is its own name. */
  nameOf(line: number): number {
    const chunk = line < 0 ? undefined : this.chunks[this.indexOf(line)];
    return chunk ? this.nameIn(chunk, line - chunk.firstLine) : line;
  }

  nameIn(chunk: FollowedChunk, local: number): number {
    const known = chunk.names?.get(local);
    if (known !== undefined) return known;
    const name = this.#homes.length;
    chunk.names ??= new Map();
    chunk.names.set(local, name);
    this.#homes.push(chunk);
    this.#locals.push(local);
    return name;
  }

  /** The line that has this name in the version that is followed now. */
  lineOf(name: number): number {
    const home = this.#homes[name];
    return home ? home.firstLine + (this.#locals[name] ?? 0) : name;
  }

  #followed(chunk: Chunk): FollowedChunk {
    const known = this.#known.get(chunk) ?? new FollowedChunk(chunk);
    this.#known.set(chunk, known);
    return known;
  }

  /** Puts chunks into the place of others, which are given back. */
  #replace(first: number, removed: number, fresh: readonly FollowedChunk[]): readonly FollowedChunk[] {
    // Arguments have a limit, and an edit seldom makes more than two chunks.
    if (fresh.length <= 1000) return this.chunks.splice(first, removed, ...fresh);
    const behind = this.chunks.splice(first + removed);
    const gone = this.chunks.splice(first);
    for (const chunk of fresh) this.chunks.push(chunk);
    for (const chunk of behind) this.chunks.push(chunk);
    return gone;
  }

  #forgetLeaps(from: number, to: number): void {
    for (let at = Math.max(0, from); at < Math.min(to, this.chunks.length); at++)
      (this.chunks[at] as FollowedChunk).leap = null;
  }

  /** Says to the chunks of a range where they stand. */
  #place(sources: readonly Source[], from: number, to: number): void {
    let first = 0;
    let above = 0;
    for (const { text, programStart, programEnd } of sources) {
      const end = Math.min(to, first + text.chunks.length);
      for (let at = Math.max(from, first); at < end; at++) {
        const chunk = this.chunks[at] as FollowedChunk;
        const firstLine = text.firstLine(at - first);
        if (chunk.firstLine !== -1 && chunk.firstLine !== above + firstLine) this.moves++;
        chunk.firstLine = above + firstLine;
        if (chunk.isCutTo(programStart - firstLine, programEnd - firstLine)) continue;
        chunk.forgetPassages();
        this.#forgetLeaps(at - chunksPerLeap + 1, at + 1);
      }
      first += text.chunks.length;
      above += text.lineCount;
    }
  }

  /** Lines that the edit left as they were, and those it changed in place, keep their names. */
  #handOver(gone: readonly FollowedChunk[], fresh: readonly FollowedChunk[]): void {
    for (const chunk of fresh)
      for (const [local, name] of chunk.names ?? []) {
        this.#homes[name] = chunk;
        this.#locals[name] = local;
      }
    if (
      !gone.some(({ names }) => names !== null) ||
      Math.max(lineCount(gone), lineCount(fresh)) > mostCompared
    )
      return;
    const old = new Lines(gone);
    const now = new Lines(fresh);
    const most = Math.min(old.count, now.count);
    let above = 0;
    while (above < most && old.text(above) === now.text(above)) above++;
    let below = 0;
    while (below < most - above && old.text(old.count - 1 - below) === now.text(now.count - 1 - below))
      below++;
    const shift = now.count - old.count;
    for (const [line, name] of old.names()) {
      const isBelow = line >= old.count - below;
      if (isBelow || line < most - below) this.#give(name, now.at(isBelow ? line + shift : line));
    }
  }

  #give(name: number, [chunk, local]: readonly [FollowedChunk, number]): void {
    // A version gone back to has its names already.
    if (chunk.names?.has(local) || this.#homes[name] === chunk) return;
    chunk.names ??= new Map();
    chunk.names.set(local, name);
    this.#homes[name] = chunk;
    this.#locals[name] = local;
  }
}

/** How many chunks at the start and at the end both texts have. */
function sameAs(before: readonly Chunk[], now: readonly Chunk[], edited: SourceText['edited']) {
  if (edited?.before === before)
    return { first: edited.first, kept: before.length - edited.first - edited.removed };
  let first = 0;
  while (first < before.length && before[first] === now[first]) first++;
  let kept = 0;
  const most = Math.min(before.length, now.length) - first;
  while (kept < most && before[before.length - 1 - kept] === now[now.length - 1 - kept]) kept++;
  return { first, kept };
}

/** Whether chunks that both texts have stand where they stood. */
function isOneOfSameLines(before: readonly Source[], now: readonly Source[]): boolean {
  const [was] = before;
  const [is] = now;
  return (
    before.length === 1 &&
    now.length === 1 &&
    was?.lineCount === is?.lineCount &&
    was?.programStart === is?.programStart &&
    was?.programEnd === is?.programEnd
  );
}

/** The lines of some chunks that follow each other, counted from the first of them. */
class Lines {
  readonly count: number;

  constructor(private readonly chunks: readonly FollowedChunk[]) {
    this.count = lineCount(chunks);
  }

  at(line: number): readonly [FollowedChunk, number] {
    let local = line;
    for (const each of this.chunks) {
      if (local < each.chunk.lineCount) return [each, local];
      local -= each.chunk.lineCount;
    }
    throw new RangeError(`There is no line ${line}.`);
  }

  text(line: number): string {
    const [{ chunk }, local] = this.at(line);
    return chunk.line(local);
  }

  *names(): Iterable<readonly [line: number, name: number]> {
    let first = 0;
    for (const { chunk, names } of this.chunks) {
      for (const [local, name] of names ?? []) yield [first + local, name];
      first += chunk.lineCount;
    }
  }
}

function lineCount(chunks: readonly FollowedChunk[]): number {
  return chunks.reduce((sum, { chunk }) => sum + chunk.lineCount, 0);
}
