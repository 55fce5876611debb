import { evaluate, placeOf, type Scope } from '../program/evaluate.ts';
import { assign } from '../program/execute.ts';
import { restoreModes } from '../program/restoreModes.ts';
import { shiftsIn } from '../program/workZero.ts';
import type { Place } from '../syntax/place.ts';
import type { Expression } from '../syntax/tree.ts';
import type { Action } from './actions.ts';
import { type Bookkeeping, modesOf } from './bookkeeping.ts';
import { sidesOf, type Test } from './branches.ts';
import type { CallChain, CallChains } from './callChains.ts';
import { bindArguments, calleeOf, callerOf, unbind } from './calls.ts';
import { copyFlow, equalFlows, type Flowing, joinFlows, type Running, startFlow } from './flowing.ts';
import type { FollowedText } from './followedText.ts';
import type { FoundBefore } from './foundBefore.ts';
import type { Graph, Node } from './graph.ts';
import { shareWith } from './identicalFlows.ts';
import type { JoinedProgram } from './joinedProgram.ts';
import { lostTrack } from './lostTrack.ts';
import type { Handover } from './model.ts';
import type { Passages, Passed, Stretch } from './passages.ts';
import { wholeLine } from './placesNow.ts';
import type { Procedure } from './procedures.ts';
import { Record } from './record.ts';
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
const computedCall = 'a call of what the program computes: what it leaves behind is unknown';

/**
 * Follows every path of one version of a program: a fixpoint over each procedure's graph, from bottom, a called procedure
 * run anew for what holds at the call, then one last pass that writes down. What lines do to a flow is asked of the
 * passages, which remember it. Bounded: past the limits it says where it stopped. Generators yield where they may pause.
 */
export class Follower {
  readonly record = new Record();
  readonly visits: Visit[] = [];
  private steps = 0;
  private nodes = 0;
  private readonly visited = new Set<Procedure>();
  /** What the last run of each chain of calls began and ended with. */
  private readonly remembered = new Map<string, Remembered>();
  /** What long stretches did last, by the lines that they begin with. */
  private readonly passed = new Map<number, PassedBefore>();
  private readonly mostSteps: number;
  private readonly stack: Procedure[] = [];

  constructor(
    private readonly program: JoinedProgram,
    private readonly bench: Workbench,
  ) {
    this.mostSteps = leastStepLimit + passesAllowed * program.lines.lineCount;
    this.takeBooks();
  }

  /** To be called before each step of `run`: others may have used the books meanwhile. */
  takeBooks(): void {
    this.bench.books.atHome = (place) => this.atHome(place);
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
        if (recording) this.handOver(node, entry, flow, graph, chain);
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
    for (const [from, to] of node.ranges) {
      const passed = yield* this.pass(stretchOf(node, from, to), flow, chain);
      this.steps += passed.steps;
      for (const record of recording ? passed.records : []) {
        this.record.add(record);
        yield;
      }
      flow = passed.flow;
      if (passed.ending === null) continue;
      this.turnTo(copyFlow(flow), chain, recording);
      if (passed.ending === 'program-end') {
        const place = this.placeOfLine(text.lineOf(passed.endedAt));
        books.endContact(place, 'program-end');
        if (recording) this.writeHandover({ kind: 'program-end', place, header: -1 }, flow, flow, chain);
      } else books.alarm(this.placeOfLine(text.lineOf(passed.endedAt)));
      books.endPath();
      return [];
    }
    if (!node.action) return [{ to: node.successors[0] ?? -1, flow }];
    const ways = yield* this.act(node, node.action, copyFlow(flow), chain, recording);
    return ways.map((way) => ({ to: way.to, flow: way.flow && shareWith(flow, way.flow) }));
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

  private *act(
    node: Node,
    action: Action,
    flow: Running,
    chain: CallChain,
    recording: boolean,
  ): Generator<void, { readonly to: number; readonly flow: Running | null }[]> {
    this.turnTo(flow, chain, recording);
    const scope = this.scopeAt(node.actionLine, flow);
    const next = node.successors[0] ?? -1;
    switch (action.kind) {
      case 'branch':
        return this.branch(node, action.condition, flow, scope);
      case 'choice':
        return node.successors.map((to) => ({ to, flow }));
      case 'conditional-setting':
        return [{ to: next, flow: this.conditionalSetting(action, flow, scope) }];
      case 'call':
        return [{ to: next, flow: yield* this.call(node, action, flow, scope, recording) }];
      case 'return': {
        const values = action.values.map((e) => evaluate(e, scope));
        const place = this.named(action.place);
        for (const value of values) this.bench.books.used(value, 'return', place, flow.state);
        if (values[0] !== undefined) flow.state.returned = values[0];
        if (flow.state.saved?.restoreOnReturn) restoreModes(flow.state.saved.modes, scope);
        return [{ to: -1, flow }];
      }
      case 'jump':
        return [{ to: next, flow }];
      case 'end':
        return [];
    }
  }

  private branch(node: Node, condition: Expression | null, flow: Running, scope: Scope) {
    const [whenTrue, whenFalse] = [node.successors[0] ?? -1, node.successors[1] ?? -1];
    if (condition === null) return [whenTrue, whenFalse].map((to) => ({ to, flow }));
    const value = evaluate(condition, scope);
    if (typeof value === 'number') return [{ to: value !== 0 ? whenTrue : whenFalse, flow }];
    const place = placeOf(condition, scope);
    this.bench.books.asked(value, place);
    const sides = sidesOf(value, flow, scope.dialect, this.testAt(place));
    return [
      { to: whenTrue, flow: sides.whenTrue },
      { to: whenFalse, flow: sides.whenFalse },
    ];
  }

  private testAt(place: Place): Test {
    return { place, openSubroutine: this.bench.books.chain.openSubroutine };
  }

  private conditionalSetting(
    action: Action & { kind: 'conditional-setting' },
    flow: Running,
    scope: Scope,
  ): Running {
    const value = evaluate(action.condition, scope);
    if (value === 0) return flow;
    const { books } = this.bench;
    const asked = placeOf(action.condition, scope);
    books.asked(value, asked);
    const { whenTrue: met, whenFalse } = sidesOf(value, flow, scope.dialect, this.testAt(asked));
    const whenTrue = copyFlow(met);
    const inside: Scope = { ...scope, state: whenTrue.state };
    books.flow = whenTrue;
    const { statement } = action;
    const name = 'number' in statement.target.index ? String(statement.target.index.number) : null;
    const place = placeOf(statement, scope);
    if (name === '3006') books.stopForOperator();
    if (name === '3000') {
      books.alarm(place);
      books.endPath();
      return whenFalse;
    }
    assign(name, evaluate(statement.value, inside), statement.value, place, inside);
    if (typeof value === 'number') return whenTrue;
    return joinFlows(whenTrue, whenFalse, `${books.chain.id}then${scope.line}`);
  }

  private *call(
    node: Node,
    action: Action & { kind: 'call' },
    flow: Running,
    scope: Scope,
    recording: boolean,
  ): Generator<void, Running | null> {
    const { books, chains } = this.bench;
    const { chain } = books;
    const lost = (reason: string) => {
      books.record?.notKnown.push({ place: this.atHome(this.named(action.place)), reason });
      return lostTrack(flow, scope.line, reason);
    };
    const name = calleeOf(action.call, scope);
    const callee = name === null ? computedCall : this.program.callee(name, node.actionLine);
    if (typeof callee === 'string') return lost(callee);
    if (this.stack.includes(callee)) return lost('a subroutine that calls itself');
    if (this.stack.length >= deepestCalls || this.cutShort)
      return lost('calls nested deeper, or longer, than are followed');
    const caller = callerOf(flow.state);
    bindArguments(action.call, scope);
    const inner = chains.chain([...chain.calls, scope.line], chain.openSubroutine);
    const exit = yield* this.runProcedure(callee, flow, inner, recording);
    if (exit) unbind(action.call, exit.state, caller, scope.dialect);
    return exit;
  }

  /** Where the procedure gives back: its `return`, M99 or last line. */
  private handOver(node: Node, before: Flowing, after: Flowing, graph: Graph, chain: CallChain): void {
    const { action } = node;
    const place =
      action?.kind === 'return' ? this.named(action.place) : this.placeOfLine(this.lastBlock(node));
    const isMain = chain.calls.length === 0 && !chain.openSubroutine;
    const kind = isMain ? 'program-end' : 'return';
    this.writeHandover({ kind, place, header: graph.procedure.header }, before, after, chain);
  }

  private lastBlock({ ranges }: Node): number {
    const [from, to] = ranges.at(-1) ?? [0, 1];
    let line = to - 1;
    while (line > from && this.program.lines.classOf(line) === 0) line--;
    return line;
  }

  private writeHandover(
    where: Pick<Handover, 'kind' | 'place' | 'header'>,
    before: Flowing,
    after: Flowing,
    { calls, openSubroutine }: CallChain,
  ): void {
    const dialect = this.program.lines.dialect.name;
    this.record.handovers.push({
      ...where,
      calls,
      openSubroutine,
      before: modesOf(before.state),
      after: modesOf(after.state),
      shiftsBefore: shiftsIn(before.state, dialect),
      shifts: shiftsIn(after.state, dialect),
    });
  }

  private turnTo(flow: Running, chain: CallChain, recording: boolean): void {
    const { books } = this.bench;
    books.flow = flow;
    books.chain = chain;
    books.record = recording ? this.record : null;
  }

  private scopeAt(line: number, flow: Running): Scope {
    const { books, text } = this.bench;
    books.line = text.nameOf(line);
    return { state: flow.state, world: books, dialect: this.program.lines.dialect.name, line: books.line };
  }

  private named(place: Place): Place {
    return { ...place, line: this.bench.text.nameOf(place.line) };
  }

  private placeOfLine(line: number): Place {
    return this.named({ line, start: 0, end: this.program.lines.block(line).text.length });
  }

  /** A place in a called file as the program's own text shows it: the block of the call that leads there. */
  private atHome(place: Place): Place {
    const { books, text } = this.bench;
    const isElsewhere = (name: number) => this.program.elsewhere(text.lineOf(name)) !== null;
    if (!isElsewhere(place.line)) return place;
    const call = books.chain.calls.findLast((name) => !isElsewhere(name));
    return call === undefined ? place : { line: call, start: 0, end: wholeLine };
  }

  /** True where the limit of steps cut the work short. */
  get cutShort(): boolean {
    return this.steps > this.mostSteps;
  }
}
