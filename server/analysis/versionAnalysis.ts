import { ChunkFacts } from '../syntax/chunkFacts.ts';
import type { Source } from '../syntax/source.ts';
import type { Analysis, Analyst, StateView } from './analysis.ts';
import type { CalledFiles } from './calledFiles.ts';
import { derivedValues } from './derived.ts';
import { Follower, type Workbench } from './follow.ts';
import { type Graph, graphInPieces, graphOf } from './graph.ts';
import { type JoinedProgram, joinedProgram } from './joinedProgram.ts';
import type { Datum, Touch } from './model.ts';
import { type Procedure, type Procedures, proceduresInPieces } from './procedures.ts';
import { type Followed, type Results, resultsOf, touchesById } from './results.ts';
import { stateView } from './stateView.ts';
import { storedResults } from './storedResults.ts';
import { toEnd } from './toEnd.ts';
import { flowsBefore, flowsBehind } from './visits.ts';

interface ProgramFlow {
  readonly procedures: Procedures;
  readonly graphs: readonly Graph[];
  readonly program: JoinedProgram;
}

/** Touches that a value rests on are told apart up to this many; only above is it seen in which order they were met. */
const touchesInAnyOrder = 64;
/** Passages that may pile up before all that is remembered is dropped, beside some times those of a first run. */
const mostPassages = 50_000;

/** The analysis of one version, made when it is first asked for, with what its analyst remembers of others. */
export class VersionAnalysis implements Analysis {
  #flow: ProgramFlow | null = null;
  #followed: Followed | null = null;
  #results: Results | null = null;
  #touches: ReadonlyMap<number, Touch> | null = null;
  #stored: readonly Datum[] | null = null;

  constructor(
    readonly source: Source,
    readonly called: CalledFiles,
    private readonly analyst: Analyst,
  ) {}

  *work(): Generator<void, void> {
    if (this.#results) return;
    const flow = this.#flow ?? (yield* flowOf(this.source, this.called));
    // Somebody may have asked during a pause.
    this.#flow ??= flow;
    const { graphs, program } = this.#flow;
    yield* shifting.lookThrough(this.source);
    yield;
    const followed = this.isWorthFollowing() ? yield* this.follow() : null;
    const writing = resultsOf(followed, graphs, program, this.analyst.profile);
    // Another version may be followed while this one pauses.
    for (;;) {
      if (followed) this.turn(followed.bench);
      const step = writing.next();
      if (step.done) this.#results ??= step.value;
      yield;
      if (step.done) return;
    }
  }

  stateAt(line: number): StateView | null {
    const { follower, bench } = toEnd(this.follow());
    this.turn(bench);
    return stateView(toEnd(flowsBefore(line, follower, bench.passages)), this.source.dialect.name);
  }

  derivedAt(line: number, name: string, when: 'before' | 'behind'): readonly Datum[] {
    const followed = toEnd(this.follow());
    const { follower, bench } = followed;
    this.turn(bench);
    const flowsAt = when === 'before' ? flowsBefore : flowsBehind;
    const flows = toEnd(flowsAt(line, follower, bench.passages));
    const { program } = this.flow;
    this.#touches ??= toEnd(touchesById(followed, program));
    const touches = this.#touches;
    const make = () => derivedValues(name, line, flows, followed, program, touches, this.analyst.profile);
    if (when === 'before' || program.sources.length > 1) return make();
    return bench.found.derived(line, name, flows, touches, make);
  }

  get storedResults() {
    if (!this.#stored) toEnd(this.findStored());
    return this.#stored ?? [];
  }

  *findStored(): Generator<undefined, void> {
    if (this.#stored) return;
    const found: Datum[] = [];
    if (this.isWorthFollowing())
      for (const some of storedResults(this.source, (line, name) => this.derivedAt(line, name, 'behind'))) {
        found.push(...some);
        yield undefined;
      }
    this.#stored ??= found;
  }

  get procedures() {
    return this.flow.procedures;
  }

  get graphs() {
    return this.flow.graphs;
  }

  get flowFaults() {
    const { procedures, graphs } = this.flow;
    return [...procedures.faults, ...graphs.flatMap((graph) => graph.faults)];
  }

  get touches() {
    return this.results.touches;
  }

  get departures() {
    return this.results.departures;
  }

  get unguardedMoves() {
    return this.results.unguardedMoves;
  }

  get untestedUses() {
    return this.results.untestedUses;
  }

  get failedUses() {
    return this.results.failedUses;
  }

  get alarmExits() {
    return this.results.alarmExits;
  }

  get staleReads() {
    return this.results.staleReads;
  }

  get positionTests() {
    return this.results.positionTests;
  }

  get descents() {
    return this.results.descents;
  }

  get datums() {
    return this.results.datums;
  }

  get placesLeftOut() {
    return this.results.placesLeftOut;
  }

  get handovers() {
    return this.results.handovers;
  }

  get elsewhere() {
    return this.results.elsewhere;
  }

  get notKnown() {
    return this.results.notKnown;
  }

  private get results() {
    if (!this.#results) toEnd(this.work());
    return this.#results as Results;
  }

  private get flow(): ProgramFlow {
    this.#flow ??= toEnd(flowOf(this.source, this.called));
    return this.#flow;
  }

  /** A program without touches, subroutines and shifts has nothing that only its paths tell. */
  private isWorthFollowing(): boolean {
    const { all, main } = this.flow.procedures;
    const hasSubroutine = all.some((procedure) => procedure !== main);
    return (
      hasSubroutine ||
      mayShift(this.source) ||
      this.source.hasTouch() ||
      this.called.files.some((file) => file.source.hasTouch())
    );
  }

  private *follow(): Generator<void, Followed> {
    if (this.#followed) return this.#followed;
    const { dialect } = this.source;
    let bench = this.analyst.bench(dialect);
    if (bench.passages.made > mostPassages + 4 * bench.passages.madeAtFirst)
      bench = this.analyst.clearedBench(dialect);
    const known = bench.chains.touches;
    let followed = yield* this.followWith(bench);
    const met = bench.chains.touches;
    if (known > 0 && met > known && met > touchesInAnyOrder)
      followed = yield* this.followWith(this.analyst.clearedBench(dialect));
    this.#followed ??= followed;
    return this.#followed;
  }

  private *followWith(bench: Workbench): Generator<void, Followed> {
    const follower = new Follower(this.flow.program, bench);
    const running = follower.run();
    // Another version may be followed while this one pauses.
    for (;;) {
      this.turn(bench);
      follower.takeBooks();
      if (running.next().done) break;
      yield;
    }
    bench.passages.endRun();
    return { follower, bench };
  }

  private turn({ text, passages }: Workbench): void {
    const { sources, lines } = this.flow.program;
    text.turnTo(sources);
    passages.turnTo(lines);
  }
}

/** G92 or G52, whatever blanks and zeros stand in them. */
const shifting = new ChunkFacts<true>((chunk, lines) =>
  lines.some((line) => /g[\s0]*(?:9\s*2|5\s*2)/i.test(chunk.line(line))) ? true : null,
);

function mayShift(source: Source): boolean {
  return [...shifting.in(source)].length > 0;
}

function* flowOf(source: Source, called: CalledFiles): Generator<void, ProgramFlow> {
  const procedures = yield* proceduresInPieces(source);
  const graphs = new Map<Procedure, Graph>();
  for (const procedure of procedures.all) graphs.set(procedure, yield* graphInPieces(source, procedure));
  const graphFor = (procedure: Procedure): Graph => graphs.get(procedure) ?? graphOf(source, procedure);
  const program = joinedProgram(source, { procedures, graphFor }, called);
  return { procedures, graphs: [...graphs.values()], program };
}
