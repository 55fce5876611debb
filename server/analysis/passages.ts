import { isSummable } from '../program/plainRun.ts';
import type { ProgramLines } from '../syntax/programLines.ts';
import type { Bookkeeping } from './bookkeeping.ts';
import type { CallChain } from './callChains.ts';
import type { Flowing } from './flowing.ts';
import type { FollowedChunk, FollowedText } from './followedText.ts';
import { identicalFlows, shareWith } from './identicalFlows.ts';
import { chunksPerLeap, type Leap, LeapAhead, Walk } from './leaps.ts';
import { LineRunner } from './lineRunner.ts';
import {
  type LinesEnding,
  type Part,
  type Passage,
  partOf,
  remember,
  remembered,
  type Stretch,
} from './passage.ts';
import { Record } from './record.ts';

/** What lines did to a flow, whether they were run or remembered. */
export interface Passed {
  readonly flow: Flowing;
  readonly ending: LinesEnding;
  /** The name of the line where it ended. */
  readonly endedAt: number;
  readonly steps: number;
  /** What is to be written down of it, in order. */
  readonly records: readonly Record[];
}

/** Plain chunks that are worth a leap of their own. */
const fewestPlain = 8;
/** Lines from which on the leaps of a stretch are noted. */
const longStretch = 4_000;

/** Runs lines chunk by chunk, and remembers what each did: what an edit did not change is not run again. */
export class Passages {
  /** Chunks that runs came by, each leap as one: what grows with the length of a program. */
  chunksPassed = 0;
  /** Passages made so far, and by the first run alone. */
  made = 0;
  madeAtFirst = 0;
  private readonly runner: LineRunner;
  private scratch = new Record();
  /** Of the version that is followed now, by the lines that long stretches begin with. */
  private readonly walks = new Map<number, Walk>();

  constructor(
    private readonly text: FollowedText,
    private readonly books: Bookkeeping,
  ) {
    this.runner = new LineRunner(text, books);
  }

  /** Blocks that were run or read again; a run taken as one step counts once. What edits cost. */
  get blocksRun(): number {
    return this.runner.blocksRun;
  }

  /** To be told when the text has turned to another version. */
  turnTo(lines: ProgramLines): void {
    if (this.runner.turnTo(lines)) this.walks.clear();
  }

  /** To be told when a program was followed to its end. */
  endRun(): void {
    if (this.madeAtFirst === 0) this.madeAtFirst = this.made;
  }

  /** Runs a stretch, or remembers what it did. Yields after what took time. */
  *run(stretch: Stretch, entry: Flowing, chain: CallChain): Generator<void, Passed> {
    const { from, to, optionalEnd } = stretch;
    const walk = to - from > longStretch ? this.walkOf(stretch, entry, chain) : null;
    const records: Record[] = [];
    let flow = entry;
    let steps = 0;
    let line = from;
    let ahead: LeapAhead | null = null;
    for (let at = this.text.indexOf(from); line < to; at++) {
      const chunk = this.text.chunks[at];
      if (!chunk) break;
      this.chunksPassed++;
      const leap = this.leap(at, line, { to, optionalEnd }, flow, chain);
      if (leap) {
        ahead = null;
        walk?.note(leap, line, at);
        flow = leap.exit;
        steps += leap.steps;
        for (const record of leap.records) records.push(record);
        line += leap.lines;
        at += leap.chunks - 1;
        continue;
      }
      const { firstLine, latest } = chunk;
      if (at % chunksPerLeap === 0)
        ahead = line === firstLine ? new LeapAhead(at, chain, { line, steps, records }) : null;
      ahead?.enter(flow);
      const part = partOf(chunk, line, stretch, chain);
      const { end, optional, key } = part;
      let passage = latest?.key === key && latest.entry === flow ? latest : remembered(chunk, key, flow);
      if (!passage) {
        passage = this.make(chunk, part, flow, chain);
        yield;
      }
      flow = passage.exit;
      steps += passage.steps;
      if (passage.record) records.push(passage.record);
      if (passage.ending !== null)
        return { flow, ending: passage.ending, endedAt: passage.endedAt, steps, records };
      line = firstLine + end;
      if (optional !== null || end !== chunk.chunk.lineCount) ahead = null;
      if (ahead?.last !== at) continue;
      const made = ahead.made(flow, { line, steps, records });
      const first = this.text.chunks[ahead.at];
      if (first) first.leap = made;
      walk?.note(made, ahead.line, ahead.at);
    }
    return { flow, ending: null, endedAt: -1, steps, records };
  }

  /** What flows into a stretch, held once: as it was when the stretch was run last, where that was the same. */
  heldBefore({ from, to, optionalEnd }: Stretch, entry: Flowing, chain: CallChain): Flowing {
    const chunk = this.text.chunks[this.text.indexOf(from)];
    if (!chunk) return entry;
    return remembered(chunk, partOf(chunk, from, { to, optionalEnd }, chain).key, entry)?.entry ?? entry;
  }

  /** The flow behind a stretch; null where no path gets there. As `run`, for who asks for nothing else. */
  *behind(stretch: Stretch, entry: Flowing, chain: CallChain): Generator<void, Flowing | null> {
    const last = this.text.indexOf(stretch.to - 1);
    const known = this.knownWalk(stretch, entry, chain)?.into(last, this.text.chunks[last]?.firstLine ?? 0);
    const { line, flow } = known ?? { line: stretch.from, flow: entry };
    const passed = yield* this.run({ ...stretch, from: line }, flow, chain);
    return passed.ending === null ? passed.flow : null;
  }

  private knownWalk({ from, optionalEnd }: Stretch, entry: Flowing, chain: CallChain): Walk | null {
    const walk = this.walks.get(from);
    const isOfThis = walk?.entry === entry && walk.chain === chain && walk.optionalEnd === optionalEnd;
    return isOfThis ? walk : null;
  }

  /** Where a run notes its leaps; null: one that came by before has noted them. */
  private walkOf(stretch: Stretch, entry: Flowing, chain: CallChain): Walk | null {
    if (this.knownWalk(stretch, entry, chain)) return null;
    const walk = new Walk(entry, chain, stretch.optionalEnd);
    this.walks.set(stretch.from, walk);
    return walk;
  }

  /** The flow before a line of a stretch; null where no path gets there. */
  *before(line: number, stretch: Stretch, entry: Flowing, chain: CallChain): Generator<void, Flowing | null> {
    const chunk = this.text.chunks[this.text.indexOf(line)];
    const from = Math.max(stretch.from, chunk?.firstLine ?? 0);
    const above = yield* this.behind({ ...stretch, to: from }, entry, chain);
    if (above === null) return null;
    this.books.record = null;
    const { flow, ending } = this.runner.run(from, line, null, above, chain);
    return ending === null ? flow : null;
  }

  /** What the chunks from one on do together, if that is known or found in one step. */
  private leap(
    at: number,
    line: number,
    { to, optionalEnd }: Pick<Stretch, 'to' | 'optionalEnd'>,
    flow: Flowing,
    chain: CallChain,
  ): Leap | null {
    const chunk = this.text.chunks[at] as FollowedChunk;
    if (line !== chunk.firstLine) return null;
    const { leap } = chunk;
    const last = optionalEnd === null ? to : Math.min(to, optionalEnd);
    if (leap?.chain === chain && line + leap.lines <= last && identicalFlows(leap.entry, flow)) return leap;
    return flow.contact.size === 0 && isSummable(flow.state)
      ? this.plainLeap(at, line, last, flow, chain)
      : null;
  }

  /** Chunks of plain lines that nobody looks at are one step. */
  private plainLeap(at: number, line: number, last: number, entry: Flowing, chain: CallChain): Leap | null {
    const all = this.text.chunks;
    let behind = line;
    let next = at;
    let cut = false;
    while (next < all.length && next - at < chunksPerLeap) {
      const { chunk, leap } = all[next] as FollowedChunk;
      if (chunk.totals === null || (next > at && leap?.chain === chain)) break;
      cut = behind + chunk.lineCount > last;
      if (cut) break;
      behind += chunk.lineCount;
      next++;
    }
    if (next - at < fewestPlain) return null;
    const { flow, steps } = this.runner.run(line, behind, null, entry, chain);
    const made = {
      entry,
      exit: shareWith(entry, flow),
      chain,
      chunks: next - at,
      lines: behind - line,
      steps,
    };
    const leap = { ...made, records: [], entries: [] };
    // Who asks for less than a program must not cut what the next run of the whole leaps over.
    if (!cut) (all[at] as FollowedChunk).leap = leap;
    return leap;
  }

  private make(
    chunk: FollowedChunk,
    { start, end, optional, key }: Part,
    entry: Flowing,
    chain: CallChain,
  ): Passage {
    const { record } = this.books;
    this.books.record = this.scratch;
    const first = chunk.firstLine;
    const ran = this.runner.run(
      first + start,
      first + end,
      optional === null ? null : first + optional,
      entry,
      chain,
    );
    this.books.record = record;
    const passage: Passage = {
      key,
      entry,
      exit: shareWith(entry, ran.flow),
      ending: ran.ending,
      endedAt: this.books.line,
      record: this.scratch.isEmpty ? null : this.scratch,
      steps: ran.steps,
    };
    if (passage.record) this.scratch = new Record();
    this.made++;
    remember(chunk, passage);
    return passage;
  }
}
