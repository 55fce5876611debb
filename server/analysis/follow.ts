import type { Profile } from '../profile/profile.ts';
import { evaluate, placeOf, type Scope } from '../program/evaluate.ts';
import { assign, type Ending, execute } from '../program/execute.ts';
import { allModes, unknown } from '../program/modes.ts';
import { runPlain } from '../program/plainRun.ts';
import { restoreModes } from '../program/restoreModes.ts';
import { setParameter } from '../program/state.ts';
import { given, lookedAt, replaceUnknowns, type Value } from '../program/value.ts';
import type { Place } from '../syntax/place.ts';
import type { ProgramLines } from '../syntax/programLines.ts';
import type { Expression } from '../syntax/tree.ts';
import type { Action } from './actions.ts';
import { Bookkeeping } from './bookkeeping.ts';
import { bindArguments, calleeOf, callerOf, unbind } from './calls.ts';
import { failingSides } from './conditions.ts';
import {
  copyFlow,
  equalFlows,
  type Flowing,
  joinFlows,
  type Running,
  setMade,
  startFlow,
} from './flowing.ts';
import type { Graph, Node } from './graph.ts';
import type { JoinedProgram } from './joinedProgram.ts';
import type { Procedure } from './procedures.ts';
import { Record } from './record.ts';

/** A run of a procedure as the last pass saw it: what held on entry to each of its nodes. */
export interface Visit {
  readonly graph: Graph;
  readonly calls: readonly number[];
  readonly entries: readonly (Flowing | null)[];
}

interface Remembered {
  readonly entry: Flowing;
  readonly entries: readonly (Flowing | null)[];
  readonly exit: Running | null;
}

const deepestCalls = 8;
const leastStepLimit = 50_000;
const passesAllowed = 12;
const mostVisits = 5_000;
const computedCall = 'a call of what the program computes: what it leaves behind is unknown';

/**
 * Follows every path of a program: a fixpoint over each procedure's graph, a called procedure run anew for what holds at
 * the call, then one last pass that writes down. Bounded: past the limits it says where it stopped.
 */
export class Follower {
  readonly record = new Record();
  readonly visits: Visit[] = [];
  private readonly books: Bookkeeping;
  private steps = 0;
  /** What the last run of each chain of calls began and ended with. */
  private readonly remembered = new Map<string, Remembered>();
  private readonly mostSteps: number;
  private readonly stack: Procedure[] = [];
  private readonly source: ProgramLines;

  constructor(
    private readonly program: JoinedProgram,
    profile: Profile,
  ) {
    this.source = program.lines;
    this.mostSteps = leastStepLimit + passesAllowed * this.source.lineCount;
    this.books = new Bookkeeping(this.record, profile, startFlow('program'));
    this.books.atHome = (place) => this.atHome(place);
  }

  /** The main program, then every subroutine that no path called: what holds at its entry is unknown. */
  run(): void {
    const { main, all } = this.program.procedures;
    if (main) this.runFrom(main, 'program');
    for (const procedure of all) {
      if (procedure === main || this.visits.some((v) => v.graph.procedure === procedure)) continue;
      this.runFrom(procedure, 'open-subroutine');
    }
  }

  private runFrom(procedure: Procedure, entry: 'program' | 'open-subroutine'): void {
    this.books.openSubroutine = entry === 'open-subroutine';
    this.books.recording = true;
    const exit = this.runProcedure(procedure, startFlow(entry), []);
    if (!exit) return;
    this.books.flow = exit;
    if (entry === 'program') {
      const line = Math.max(0, (procedure.ranges.at(-1)?.[1] ?? 1) - 1);
      this.books.endContact({ line, start: 0, end: 0 }, 'program-end');
    } else {
      this.books.handOver([...exit.state.globals.values(), exit.state.returned]);
    }
    this.books.endPath();
  }

  /** The flow where the procedure returns; null where no path does. Writes down only while the books are recording. */
  private runProcedure(procedure: Procedure, entry: Flowing, calls: readonly number[]): Running | null {
    const graph = this.program.graphFor(procedure);
    const recording = this.books.recording;
    const key = `${calls.join('>')}:${procedure.header}`;
    const known = this.remembered.get(key);
    const same = known !== undefined && equalFlows(known.entry, entry);
    if (same && !recording) return known.exit && copyFlow(known.exit);
    this.stack.push(procedure);
    this.books.recording = false;
    const entries = same ? known.entries : this.fixpoint(graph, entry, calls);
    this.books.recording = recording;
    if (recording && this.visits.length < mostVisits) this.visits.push({ graph, calls, entries });
    const exit = this.exitOf(graph, entries, calls);
    this.stack.pop();
    this.remembered.set(key, { entry, entries, exit });
    return exit && copyFlow(exit);
  }

  /** The last pass over a procedure, in which the books may record. */
  private exitOf(
    graph: Graph,
    entries: readonly (Flowing | null)[],
    calls: readonly number[],
  ): Running | null {
    let exit: Running | null = null;
    for (const node of graph.nodes) {
      const before = entries[node.id];
      if (!before) continue;
      for (const { to, flow } of this.transfer(node, before, calls))
        if (to === -1 && flow)
          exit = exit
            ? joinFlows(exit, flow, this.at(calls, 'exit', graph.procedure.header))
            : copyFlow(flow);
    }
    return exit;
  }

  private fixpoint(graph: Graph, entry: Flowing, calls: readonly number[]): (Flowing | null)[] {
    const entries: (Flowing | null)[] = graph.nodes.map(() => null);
    const waiting = new Uint8Array(graph.nodes.length);
    if (waiting.length > 0) {
      entries[0] = entry;
      waiting[0] = 1;
    }
    // Lowest first: a node is taken when what stands before it has settled, but for loops, which turn back.
    for (let id = 0; id < waiting.length; id++) {
      const node = graph.nodes[id];
      const before = entries[id];
      if (!waiting[id] || !node || !before || this.cutShort) continue;
      waiting[id] = 0;
      let back = id;
      for (const { to, flow } of this.transfer(node, before, calls)) {
        if (to < 0 || !flow) continue;
        const known = entries[to];
        const joined = known
          ? joinFlows(known, flow, this.at(calls, `p${graph.procedure.header}n`, to))
          : flow;
        if (known && equalFlows(known, joined)) continue;
        entries[to] = joined;
        waiting[to] = 1;
        back = Math.min(back, to - 1);
      }
      id = back;
    }
    return entries;
  }

  private at(calls: readonly number[], kind: string, id: number): string {
    return `${calls.join('>')}${kind}${id}`;
  }

  /** Runs the lines of a node and gives what flows to each successor. */
  private transfer(
    node: Node,
    before: Flowing,
    calls: readonly number[],
  ): { to: number; flow: Running | null }[] {
    const flow = copyFlow(before);
    this.books.flow = flow;
    this.books.calls = calls;
    const ending = this.runLines(node, flow);
    if (ending !== null) {
      if (ending === 'program-end') this.books.endContact(this.placeOfLine(this.books.line), 'program-end');
      this.books.endPath();
      return [];
    }
    return node.action ? this.act(node, node.action, flow, calls) : [{ to: node.successors[0] ?? -1, flow }];
  }

  private runLines(node: Node, flow: Running): Ending {
    for (const [from, to] of node.ranges) {
      let line = from;
      while (line < to) {
        this.steps++;
        if (this.source.classOf(line) === 1) {
          const end = runPlain(this.source, line, to, flow.state, this.books, (l) => this.setLine(l));
          line = end;
          continue;
        }
        this.setLine(line);
        if (this.source.classOf(line) === 2) {
          const ending = execute(
            this.source.block(line),
            line,
            flow.state,
            this.books,
            this.source.dialect.name,
          );
          // The acting line of a node may be an end behind `/`, which may be skipped: then the action decides.
          if (ending !== null && !(line === node.actionLine && node.action?.kind === 'branch')) return ending;
        }
        line++;
      }
    }
    return null;
  }

  private setLine(line: number): void {
    this.books.line = line;
  }

  private act(
    node: Node,
    action: Action,
    flow: Running,
    calls: readonly number[],
  ): { to: number; flow: Running | null }[] {
    const scope = this.scopeAt(node.actionLine, flow);
    switch (action.kind) {
      case 'branch':
        return this.branch(node, action.condition, flow, scope);
      case 'choice':
        return node.successors.map((to) => ({ to, flow }));
      case 'conditional-setting':
        return [{ to: node.successors[0] ?? -1, flow: this.conditionalSetting(action, flow, scope) }];
      case 'call':
        return [{ to: node.successors[0] ?? -1, flow: this.call(node, action, flow, calls, scope) }];
      case 'return': {
        const values = action.values.map((e) => evaluate(e, scope));
        for (const value of values) this.books.used(value, 'return', action.place, flow.state);
        if (values[0] !== undefined) flow.state.returned = values[0];
        if (flow.state.saved?.restoreOnReturn) restoreModes(flow.state.saved.modes, scope);
        return [{ to: -1, flow }];
      }
      case 'jump':
        return [{ to: node.successors[0] ?? -1, flow }];
      case 'end':
        return [];
    }
  }

  private branch(node: Node, condition: Expression | null, flow: Running, scope: Scope) {
    const [whenTrue, whenFalse] = [node.successors[0] ?? -1, node.successors[1] ?? -1];
    if (condition === null) return [whenTrue, whenFalse].map((to) => ({ to, flow }));
    const value = evaluate(condition, scope);
    if (typeof value === 'number') return [{ to: value !== 0 ? whenTrue : whenFalse, flow }];
    const sides = this.sidesOf(value, flow);
    return [
      { to: whenTrue, flow: sides.whenTrue },
      { to: whenFalse, flow: sides.whenFalse },
    ];
  }

  /** What flows to the two sides of a test: the touches it looks at are tested, not in contact on the failing side, in contact on the other. */
  private sidesOf(value: Value, flow: Running): { whenTrue: Running; whenFalse: Running } {
    const failures = failingSides(value, flow, this.source.dialect.name);
    for (const touch of lookedAt(value)) {
      const made = flow.made.get(touch);
      if (made) setMade(flow, touch, { ...made, tested: true, arithmetic: null });
    }
    const whenTrue = flow;
    const whenFalse = copyFlow(flow);
    for (const { touch, side } of failures) {
      const [failed, met] = side ? [whenTrue, whenFalse] : [whenFalse, whenTrue];
      arriveAtEnd(failed, touch);
      failed.contact = new Map([...failed.contact].filter(([t]) => t !== touch));
      if (met.contact.has(touch)) met.contact = new Map(met.contact).set(touch, true);
    }
    return { whenTrue, whenFalse };
  }

  private conditionalSetting(
    action: Action & { kind: 'conditional-setting' },
    flow: Running,
    scope: Scope,
  ): Running {
    const value = evaluate(action.condition, scope);
    if (value === 0) return flow;
    const { whenTrue, whenFalse } = this.sidesOf(value, flow);
    const inside: Scope = { ...scope, state: whenTrue.state };
    this.books.flow = whenTrue;
    const { statement } = action;
    const name = 'number' in statement.target.index ? String(statement.target.index.number) : null;
    const place = placeOf(statement, scope);
    if (name === '3000') {
      this.books.endPath();
      return whenFalse;
    }
    assign(name, evaluate(statement.value, inside), statement.value, place, inside);
    if (typeof value === 'number') return whenTrue;
    return joinFlows(whenTrue, whenFalse, this.at(this.books.calls, 't', scope.line));
  }

  private call(
    node: Node,
    action: Action & { kind: 'call' },
    flow: Running,
    calls: readonly number[],
    scope: Scope,
  ): Running | null {
    const name = calleeOf(action.call, scope);
    const callee = name === null ? computedCall : this.program.callee(name, node.actionLine);
    if (typeof callee === 'string') return this.lost(flow, action, callee);
    if (this.stack.includes(callee)) return this.lost(flow, action, 'a subroutine that calls itself');
    if (this.stack.length >= deepestCalls || this.cutShort)
      return this.lost(flow, action, 'calls nested deeper, or longer, than are followed');
    const caller = callerOf(flow.state);
    bindArguments(action.call, scope);
    const exit = this.runProcedure(callee, flow, [...calls, node.actionLine]);
    this.books.calls = calls;
    if (exit) unbind(action.call, exit.state, caller, this.source.dialect.name);
    return exit;
  }

  /** After something that is not followed nothing is known, and nothing is held against the program. */
  private lost(flow: Running, action: Action & { kind: 'call' }, reason: string): Running {
    if (this.books.recording) this.record.notKnown.push({ place: this.atHome(action.place), reason });
    const state = flow.state;
    const key = `after-call:${action.place.line}`;
    state.modes = allModes(unknown);
    state.feed = { unset: false, value: given(key, reason), place: null, byPath: [] };
    state.position = state.position.map((_, i) => given(`${key}:${i}`, reason));
    state.latched = state.latched.map((_, i) => given(`${key}:l${i}`, reason));
    state.success = given(`${key}:s`, reason);
    state.returned = given(`${key}:r`, reason);
    for (const name of [...state.globals.keys()])
      setParameter(state, 'globals', name, given(`${key}:#${name}`, reason));
    return { state, contact: new Map(), made: new Map(), ownsMade: false };
  }

  private scopeAt(line: number, flow: Running): Scope {
    this.books.line = line;
    return { state: flow.state, world: this.books, dialect: this.source.dialect.name, line };
  }

  private placeOfLine(line: number) {
    return { line, start: 0, end: this.source.block(line).text.length };
  }

  /** A place in a called file as the program's own text shows it: the call that leads there. */
  private atHome(place: Place): Place {
    if (this.program.elsewhere(place.line) === null) return place;
    const call = this.books.calls.findLast((line) => this.program.elsewhere(line) === null);
    return call === undefined ? place : this.placeOfLine(call);
  }

  /** What holds before a line on each visit of its procedure, for a person who asks. */
  flowsBefore(line: number): Running[] {
    const flows: Running[] = [];
    for (const visit of this.visits) {
      const node = visit.graph.nodes.find((n) => n.ranges.some(([a, b]) => line >= a && line < b));
      const before = node ? visit.entries[node.id] : null;
      if (!node || !before) continue;
      const flow = copyFlow(before);
      this.books.flow = flow;
      this.books.calls = visit.calls;
      this.books.recording = false;
      const ranges = node.ranges.flatMap(([a, b]): [number, number][] =>
        a >= line ? [] : [[a, Math.min(b, line)]],
      );
      if (this.runLines({ ...node, ranges }, flow) === null) flows.push(flow);
    }
    return flows;
  }

  /** True where the limit of steps cut the work short. */
  get cutShort(): boolean {
    return this.steps > this.mostSteps;
  }
}

/** A touch that met nothing has come to the end of its travel: that is where its axes stand. */
function arriveAtEnd(flow: Running, touch: number): void {
  const made = flow.made.get(touch);
  if (!made) return;
  flow.state.position = flow.state.position.map((position) =>
    replaceUnknowns(position, (u) =>
      u.kind === 'stopped' && u.touch === touch ? (made.to[u.axis] ?? null) : null,
    ),
  );
}
