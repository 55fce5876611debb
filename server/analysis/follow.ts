import type { Bookkeeping } from './bookkeeping.ts';
import type { CallChain, CallChains } from './callChains.ts';
import { copyFlow, equalFlows, type Flowing, joinFlows, type Running, startFlow } from './flowing.ts';
import type { FollowedText } from './followedText.ts';
import type { FoundBefore } from './foundBefore.ts';
import type { Graph, Node } from './graph.ts';
import { handover, handoverAt } from './handovers.ts';
import { shareWith } from './identicalFlows.ts';
import type { JoinedProgram } from './joinedProgram.ts';
import { ModalFollower } from './modalFollower.ts';
import { type FollowCall, NodeActions } from './nodeActions.ts';
import type { Stretch } from './passage.ts';
import type { Passages, Passed } from './passages.ts';
import { PathBooks } from './pathBooks.ts';
import type { Procedure } from './procedures.ts';
import { Record } from './record.ts';
import { Resumes } from './resumes.ts';
import { stretchOf, type Visit } from './visits.ts';

/** What a follower works with; it outlives the versions of the text. */
export interface Workbench {
  readonly text: FollowedText;
  readonly chains: CallChains;
  readonly books: Bookkeeping;
  readonly passages: Passages;
  readonly found: FoundBefore;
}

interface Remembered {
  readonly entry: Flowing;
  readonly entries: readonly (Flowing | null)[];
  readonly exit: Running | null;
}

interface PassedBefore {
  readonly entry: Flowing;
  readonly chain: CallChain;
  readonly to: number;
  readonly passed: Passed;
}

type Flow = Generator<void, { readonly to: number; readonly flow: Flowing | null }[]>;

const deepestCalls = 8;
const leastStepLimit = 50_000;
const passesAllowed = 12;
const mostVisits = 5_000;
/** Lines from which on a stretch is long. */
const longStretch = 4_000;
/** Nodes taken between two pauses. */
const nodesAtOnce = 32;

/**
 * Follows every path of one version of a program: a fixpoint over each procedure's graph, from bottom, a called procedure
 * run anew for what holds at the call, then one last pass that writes down. What lines do to a flow is asked of the
 * passages, which remember it. Bounded: past the limits it says where it stopped. Generators yield where they may pause.
 */
export class Follower {
  readonly record = new Record();
  readonly visits: Visit[] = [];
  /** Where paths go on behind what a G66 called. */
  readonly resumes = new Resumes();
  private steps = 0;
  private nodes = 0;
  private readonly visited = new Set<Procedure>();
  /** What the last run of each chain of calls began and ended with. */
  private readonly remembered = new Map<string, Remembered>();
  /** What long stretches did last, by the lines that they begin with. */
  private readonly passed = new Map<number, PassedBefore>();
  private readonly mostSteps: number;
  private readonly stack: Procedure[] = [];
  private readonly path: PathBooks;
  private readonly actions: NodeActions;
  private readonly modal: ModalFollower;

  constructor(
    private readonly program: JoinedProgram,
    private readonly bench: Workbench,
  ) {
    this.path = new PathBooks(program, bench.text, bench.books);
    this.modal = new ModalFollower(program, bench.text, bench.chains, this.path);
    this.actions = new NodeActions(program, bench.chains, this.path);
    this.mostSteps = leastStepLimit + passesAllowed * program.lines.lineCount;
    this.takeBooks();
  }

  /** To be called before each step of `run`: others may have used the books meanwhile. */
  takeBooks(): void {
    this.bench.books.atHome = (place) => this.path.atHome(place);
  }

  /** The main program, then every subroutine that no path called: what holds at its entry is unknown. */
  *run(): Generator<void, void> {
    const { main, all } = this.program.procedures;
    if (main) yield* this.runFrom(main, 'program');
    for (const procedure of all)
      if (procedure !== main && !this.visited.has(procedure))
        yield* this.runFrom(procedure, 'open-subroutine');
  }

  private *runFrom(procedure: Procedure, entry: 'program' | 'open-subroutine'): Generator<void, void> {
    const { books, text, chains } = this.bench;
    const chain = chains.chain([], entry === 'open-subroutine');
    const exit = yield* this.runProcedure(procedure, startFlow(entry), chain, true);
    if (!exit) return;
    this.turnTo(exit, chain, true);
    if (entry === 'program') {
      const line = Math.max(0, (procedure.ranges.at(-1)?.[1] ?? 1) - 1);
      books.endContact({ line: text.nameOf(line), start: 0, end: 0 }, 'program-end');
    } else {
      books.handOver([...exit.state.globals.values(), exit.state.returned]);
    }
    books.endPath();
  }

  /** The flow where the procedure returns; null where no path does. */
  private *runProcedure(
    procedure: Procedure,
    entry: Flowing,
    chain: CallChain,
    recording: boolean,
  ): Generator<void, Running | null> {
    const graph = this.program.graphFor(procedure);
    const key = `${chain.id}:${procedure.header}`;
    const known = this.remembered.get(key);
    const same = known !== undefined && equalFlows(known.entry, entry);
    if (same && !recording) return known.exit && copyFlow(known.exit);
    this.stack.push(procedure);
    const entries = same ? known.entries : yield* this.fixpoint(graph, entry, chain);
    if (recording) {
      this.visited.add(procedure);
      if (this.visits.length < mostVisits) this.visits.push({ graph, chain, entries });
    }
    const exit = yield* this.exitOf(graph, entry, entries, chain, recording);
    this.stack.pop();
    this.remembered.set(key, { entry, entries, exit });
    return exit && copyFlow(exit);
  }

  /** The last pass over a procedure, in which the books may record. */
  private *exitOf(
    graph: Graph,
    entry: Flowing,
    entries: readonly (Flowing | null)[],
    chain: CallChain,
    recording: boolean,
  ): Generator<void, Running | null> {
    let exit: Running | null = null;
    for (const node of graph.nodes) {
      const before = entries[node.id];
      if (!before) continue;
      for (const { to, flow } of yield* this.transfer(node, before, chain, recording)) {
        if (to !== -1 || !flow) continue;
        if (recording)
          this.record.handovers.push(
            handoverAt(node, { before: entry, after: flow }, graph, chain, this.program, this.path),
          );
        const at = () => `${chain.id}exit${this.bench.text.nameOf(graph.procedure.header)}`;
        exit = exit ? joinFlows(exit, flow, at()) : copyFlow(flow);
      }
    }
    return exit;
  }

  private *fixpoint(graph: Graph, entry: Flowing, chain: CallChain): Generator<void, (Flowing | null)[]> {
    const entries: (Flowing | null)[] = graph.nodes.map(() => null);
    const waiting = new Uint8Array(graph.nodes.length);
    if (waiting.length > 0) {
      entries[0] = entry;
      waiting[0] = 1;
    }
    // Lowest first: a node is taken when what stands before it has settled, but for loops, which turn back.
    for (let id = 0; id < waiting.length; id++) {
      const node = graph.nodes[id];
      const entered = entries[id];
      if (!waiting[id] || !node || !entered || this.cutShort) continue;
      waiting[id] = 0;
      const before = this.heldBefore(node, entered, chain);
      entries[id] = before;
      let back = id;
      for (const { to, flow } of yield* this.transfer(node, before, chain, false)) {
        const known = entries[to];
        if (to < 0 || !flow || known === flow) continue;
        const joined = known && joinFlows(known, flow, this.meeting(graph, to, chain));
        if (known && joined && equalFlows(known, joined)) continue;
        entries[to] = joined ? shareWith(flow, joined) : flow;
        waiting[to] = 1;
        back = Math.min(back, to - 1);
      }
      id = back;
    }
    return entries;
  }

  /** What joined values are named after: the first line of the node where paths meet. */
  private meeting({ nodes }: Graph, id: number, { id: chain }: CallChain): string {
    const node = nodes[id];
    const line = node?.ranges[0]?.[0];
    const { text } = this.bench;
    return line === undefined
      ? `${chain}test${text.nameOf(node?.actionLine ?? -1)}`
      : `${chain}line${text.nameOf(line)}`;
  }

  /** Runs the lines of a node and gives what flows to each successor. */
  private *transfer(node: Node, before: Flowing, chain: CallChain, recording: boolean): Flow {
    const { books, text } = this.bench;
    if (++this.nodes % nodesAtOnce === 0) yield;
    let flow = before;
    for (const range of node.ranges) {
      const passed = yield* this.passRange(node, range, flow, chain, recording);
      if (passed === null) return [];
      flow = passed.flow;
      if (passed.ending === null) continue;
      this.turnTo(copyFlow(flow), chain, recording);
      if (passed.ending === 'program-end') {
        const place = this.path.placeOfLine(text.lineOf(passed.endedAt));
        books.endContact(place, 'program-end');
        if (recording)
          this.record.handovers.push(
            handover(
              { kind: 'program-end', place, header: -1 },
              { before: flow, after: flow },
              chain,
              this.program,
            ),
          );
      } else books.alarm(this.path.placeOfLine(text.lineOf(passed.endedAt)));
      books.endPath();
      return [];
    }
    if (!node.action) return [{ to: node.successors[0] ?? -1, flow }];
    const running = copyFlow(flow);
    this.turnTo(running, chain, recording);
    const ways = yield* this.actions.act(node, node.action, running, this.calls(recording));
    return ways.map((way) => ({ to: way.to, flow: way.flow && shareWith(flow, way.flow) }));
  }

  /** The lines of a range, and what a G66 calls between them; null where such a call never comes back. */
  private *passRange(
    node: Node,
    [from, to]: Node['ranges'][number],
    before: Flowing,
    chain: CallChain,
    recording: boolean,
  ): Generator<void, Passed | null> {
    const { text } = this.bench;
    let flow = before;
    for (let start = from; ; ) {
      const passed = yield* this.pass(stretchOf(node, start, to), flow, chain);
      this.steps += passed.steps;
      for (const record of recording ? passed.records : []) {
        this.record.add(record);
        yield;
      }
      if (passed.ending !== 'modal-call') return passed;
      const line = text.lineOf(passed.endedAt);
      const running = copyFlow(passed.flow);
      this.turnTo(running, chain, recording);
      const behind = yield* this.modal.behind(line, running, this.calls(recording));
      if (behind === null) return null;
      flow = shareWith(passed.flow, behind);
      start = line + 1;
      if (recording) this.resumes.note(chain, start, flow);
      if (start >= to) return { ...passed, flow, ending: null };
    }
  }

  private heldBefore(node: Node, entry: Flowing, chain: CallChain): Flowing {
    const [first] = node.ranges;
    return first ? this.bench.passages.heldBefore(stretchOf(node, ...first), entry, chain) : entry;
  }

  /** The last pass over a long stretch finds what the fixpoint has left. */
  private *pass(stretch: Stretch, entry: Flowing, chain: CallChain): Generator<void, Passed> {
    const { passages } = this.bench;
    if (stretch.to - stretch.from < longStretch) return yield* passages.run(stretch, entry, chain);
    const known = this.passed.get(stretch.from);
    if (known?.entry === entry && known.chain === chain && known.to === stretch.to) return known.passed;
    const passed = yield* passages.run(stretch, entry, chain);
    this.passed.set(stretch.from, { entry, chain, to: stretch.to, passed });
    return passed;
  }

  private turnTo(flow: Running, chain: CallChain, recording: boolean): void {
    this.path.turnTo(flow, chain, recording ? this.record : null);
  }

  private calls(recording: boolean): FollowCall {
    return {
      refuse: (callee) => {
        if (this.stack.includes(callee)) return 'a subroutine that calls itself';
        const isTooDeep = this.stack.length >= deepestCalls || this.cutShort;
        return isTooDeep ? 'calls nested deeper, or longer, than are followed' : null;
      },
      run: (callee, entry, chain) => this.runProcedure(callee, entry, chain, recording),
    };
  }

  /** True where the limit of steps cut the work short. */
  get cutShort(): boolean {
    return this.steps > this.mostSteps;
  }
}
