import { evaluate, placeOf, type Scope } from '../program/evaluate.ts';
import { assign, type Ending, execute } from '../program/execute.ts';
import { restoreModes } from '../program/restoreModes.ts';
import { type State, startState } from '../program/state.ts';
import type { World } from '../program/world.ts';
import type { Source } from '../syntax/source.ts';
import type { Action } from './actions.ts';
import { bindArguments, type Caller, calleeOf, callerOf, unbind } from './calls.ts';
import { type Graph, graphOf, type Node } from './graph.ts';
import { type Procedure, proceduresOf } from './procedures.ts';

/** How a run on numbers ended. */
export type RunEnding =
  | { readonly kind: 'program-end' | 'alarm' | 'endless'; readonly line: number }
  /** A test, a call or a jump hangs on a value that the world does not know. */
  | { readonly kind: 'undecided'; readonly line: number; readonly reason: string };

interface Frame {
  readonly graph: Graph;
  readonly caller: (Caller & { readonly node: Node }) | null;
  readonly call: (Action & { kind: 'call' }) | null;
  /** Passes still to make of each repeat that runs, by its line. */
  readonly left: Map<number, number>;
}

/**
 * Runs a program block by block on the world's numbers: the same interpreter that the analysis uses, one path only.
 * `before` is told each line (0-based) before it runs; a run of more than `mostBlocks` blocks is endless.
 */
export function runProgram(
  source: Source,
  world: World,
  options: {
    readonly mostBlocks: number;
    readonly state?: State;
    readonly before?: (line: number, state: State) => void;
  },
): { readonly ending: RunEnding; readonly state: State } {
  const run = new Run(source, world, options.state ?? startState('program'), options.before ?? (() => {}));
  return { ending: run.go(options.mostBlocks), state: run.state };
}

class Run {
  private readonly procedures;
  private readonly graphs = new Map<Procedure, Graph>();
  private readonly frames: Frame[] = [];
  private blocks = 0;
  private line = 0;

  constructor(
    private readonly source: Source,
    private readonly world: World,
    readonly state: State,
    private readonly before: (line: number, state: State) => void,
  ) {
    this.procedures = proceduresOf(source);
  }

  go(mostBlocks: number): RunEnding {
    const main = this.procedures.main;
    if (!main) return this.undecided('the file holds no main program');
    this.frames.push({ graph: this.graphFor(main), caller: null, call: null, left: new Map() });
    let node = this.top()?.graph.nodes[0];
    while (node) {
      const ending = this.runLines(node);
      if (ending === 'alarm' || ending === 'program-end') return { kind: ending, line: this.line };
      if (this.blocks++ > mostBlocks) return { kind: 'endless', line: this.line };
      const next = node.action ? this.act(node, node.action) : (node.successors[0] ?? -1);
      if (typeof next !== 'number') return next;
      node = next === -1 ? this.leave() : this.top()?.graph.nodes[next];
    }
    return { kind: 'program-end', line: this.line };
  }

  private top(): Frame | undefined {
    return this.frames.at(-1);
  }

  private graphFor(procedure: Procedure): Graph {
    const known = this.graphs.get(procedure) ?? graphOf(this.source, procedure);
    this.graphs.set(procedure, known);
    return known;
  }

  private runLines(node: Node): Ending {
    for (const [from, to] of node.ranges)
      for (let line = from; line < to; line++) {
        if (this.source.classOf(line) === 0) continue;
        this.line = line;
        this.blocks++;
        this.before(line, this.state);
        const ending = execute(
          this.source.block(line),
          line,
          this.state,
          this.world,
          this.source.dialect.name,
        );
        if (ending !== null) return ending;
      }
    return null;
  }

  /** The node that follows, -1 for the end of the procedure, or why the run ends. */
  private act(node: Node, action: Action): number | RunEnding {
    const scope = this.scopeAt(node.actionLine);
    switch (action.kind) {
      case 'branch':
        return this.branch(node, action, scope);
      case 'choice':
        return this.choice(node, scope);
      case 'conditional-setting':
        return this.conditionalSetting(node, action, scope);
      case 'call':
        return this.call(node, action, scope);
      case 'return':
        this.returnFrom(action, scope);
        return -1;
      case 'jump':
        return node.successors[0] ?? -1;
      case 'end':
        return { kind: 'program-end', line: node.actionLine };
    }
  }

  private branch(node: Node, action: Action & { kind: 'branch' }, scope: Scope): number | RunEnding {
    const [whenTrue, whenFalse] = [node.successors[0] ?? -1, node.successors[1] ?? -1];
    if (action.count) {
      const again = this.countDown(node.actionLine, action, scope);
      return again === null
        ? this.undecided('how often to repeat is not known')
        : again
          ? whenTrue
          : whenFalse;
    }
    const value = action.condition ? evaluate(action.condition, scope) : 1;
    if (typeof value !== 'number') return this.undecided('a test on a value that is not known');
    return value !== 0 ? whenTrue : whenFalse;
  }

  private countDown(line: number, action: Action & { kind: 'branch' }, scope: Scope): boolean | null {
    const left = this.top()?.left;
    if (!left || !action.count) return null;
    let rest = left.get(line);
    if (rest === undefined) {
      const count = evaluate(action.count, scope);
      if (typeof count !== 'number') return null;
      // A repeat that tests behind its body has already made one pass.
      rest = Math.max(0, Math.round(count) - (action.whenTrue <= line ? 1 : 0));
    }
    if (rest > 0) left.set(line, rest - 1);
    else left.delete(line);
    return rest > 0;
  }

  private choice(node: Node, scope: Scope): number | RunEnding {
    const flow = this.source.block(node.actionLine).items.find((i) => i.kind === 'flow' && i.form === 'goto');
    if (flow?.kind !== 'flow' || flow.form !== 'goto') return this.undecided('a jump without a target');
    const condition = flow.condition ? evaluate(flow.condition, scope) : 1;
    const target = evaluate(flow.target, scope);
    if (typeof condition !== 'number' || typeof target !== 'number')
      return this.undecided('a jump to a label that is not known');
    const nodes = this.top()?.graph.nodes ?? [];
    const found = nodes.find((n) => this.labelOf(n) === target);
    if (condition === 0) return node.successors.at(-1) ?? -1;
    return found ? found.id : this.undecided(`a jump to N${target}, which is not there`);
  }

  private labelOf(node: Node): number | null {
    const first = node.ranges[0]?.[0];
    return first === undefined ? null : (this.source.block(first).lineNumber?.value ?? null);
  }

  private conditionalSetting(
    node: Node,
    action: Action & { kind: 'conditional-setting' },
    scope: Scope,
  ): number | RunEnding {
    const value = evaluate(action.condition, scope);
    if (typeof value !== 'number') return this.undecided('a test on a value that is not known');
    if (value !== 0) {
      const { target, value: given } = action.statement;
      const name = 'number' in target.index ? String(target.index.number) : null;
      if (name === '3000') return { kind: 'alarm', line: node.actionLine };
      assign(name, evaluate(given, scope), given, placeOf(action.statement, scope), scope);
    }
    return node.successors[0] ?? -1;
  }

  private call(node: Node, action: Action & { kind: 'call' }, scope: Scope): number | RunEnding {
    const name = calleeOf(action.call, scope);
    const callee = name === null ? undefined : this.procedures.byName.get(name);
    if (!callee) return this.undecided('a call into a file that is not at hand');
    if (this.frames.length > 100) return { kind: 'endless', line: node.actionLine };
    const caller = { node, ...callerOf(this.state) };
    bindArguments(action.call, scope);
    const graph = this.graphFor(callee);
    this.frames.push({ graph, caller, call: action, left: new Map() });
    return graph.nodes.length > 0 ? 0 : -1;
  }

  private returnFrom(action: Action & { kind: 'return' }, scope: Scope): void {
    const [value] = action.values;
    if (value) this.state.returned = evaluate(value, scope);
    if (this.state.saved?.restoreOnReturn) restoreModes(this.state.saved.modes, scope);
  }

  /** Back to the caller: its next node, or undefined at the end of the main program. */
  private leave(): Node | undefined {
    const frame = this.frames.pop();
    if (!frame?.caller || !frame.call) return undefined;
    unbind(frame.call.call, this.state, frame.caller, this.source.dialect.name);
    const next = frame.caller.node.successors[0] ?? -1;
    return next === -1 ? this.leave() : this.top()?.graph.nodes[next];
  }

  private scopeAt(line: number): Scope {
    this.line = line;
    return { state: this.state, world: this.world, dialect: this.source.dialect.name, line };
  }

  private undecided(reason: string): RunEnding {
    return { kind: 'undecided', line: this.line, reason };
  }
}
