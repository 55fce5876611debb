import type { CallChain } from './callChains.ts';
import type { Flowing } from './flowing.ts';
import type { Record } from './record.ts';

/** Chunks that are taken in one leap where nothing in them changed: of a million lines, few are then looked at. */
export const chunksPerLeap = 64;

/** What some chunks from one on, at most `chunksPerLeap`, did to what flowed in; forgotten when one of them changes. */
export interface Leap {
  readonly chunks: number;
  readonly chain: CallChain;
  readonly entry: Flowing;
  readonly exit: Flowing;
  readonly lines: number;
  readonly steps: number;
  readonly records: readonly Record[];
  /** What flows into each of the chunks; empty where they were taken as one step. */
  readonly entries: readonly Flowing[];
}

/** What a run has done up to a line. */
export interface Reached {
  readonly line: number;
  readonly steps: number;
  readonly records: readonly Record[];
}

/** A leap that may come to be: the chunks that a run has passed from one on that stands where leaps begin. */
export class LeapAhead {
  readonly line: number;
  private readonly steps: number;
  private readonly records: number;
  private readonly entries: Flowing[] = [];

  /** @param at index of the first chunk */
  constructor(
    readonly at: number,
    private readonly chain: CallChain,
    { line, steps, records }: Reached,
  ) {
    this.line = line;
    this.steps = steps;
    this.records = records.length;
  }

  /** Index of the last chunk. */
  get last(): number {
    return this.at + chunksPerLeap - 1;
  }

  /** To be told what flows into each chunk. */
  enter(flow: Flowing): void {
    this.entries.push(flow);
  }

  /** The leap, once a run has got behind the last of its chunks. */
  made(exit: Flowing, { line, steps, records }: Reached): Leap {
    return {
      chunks: chunksPerLeap,
      chain: this.chain,
      entry: this.entries[0] ?? exit,
      exit,
      lines: line - this.line,
      steps: steps - this.steps,
      records: records.slice(this.records),
      entries: this.entries,
    };
  }
}

/** The leaps in the run of one stretch, in order: who asks for a line of it later does not go all the way again. */
export class Walk {
  private readonly lines: number[] = [];
  private readonly chunks: number[] = [];
  private readonly leaps: Leap[] = [];

  constructor(
    readonly entry: Flowing,
    readonly chain: CallChain,
    readonly optionalEnd: number | null,
  ) {}

  /** @param at index of the leap's first chunk */
  note(leap: Leap, line: number, at: number): void {
    this.leaps.push(leap);
    this.lines.push(line);
    this.chunks.push(at);
  }

  /** What flows into the chunk with this index and first line, or is known nearest above it; null: nothing is. */
  into(chunk: number, firstLine: number): { readonly line: number; readonly flow: Flowing } | null {
    const at = lastUpTo(this.chunks, chunk);
    const leap = this.leaps[at];
    const line = this.lines[at];
    if (!leap || line === undefined) return null;
    const inner = chunk - (this.chunks[at] ?? 0);
    if (inner >= leap.chunks) return { line: line + leap.lines, flow: leap.exit };
    const inside = leap.entries[inner];
    return inside ? { line: firstLine, flow: inside } : { line, flow: leap.entry };
  }
}

/** Index of the last that is not above `wanted`, of values that go up; -1 where there is none. */
function lastUpTo(values: readonly number[], wanted: number): number {
  let low = -1;
  let high = values.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((values[middle] ?? 0) <= wanted) low = middle;
    else high = middle - 1;
  }
  return low;
}
