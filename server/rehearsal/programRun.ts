import type { Action, Call } from '../analysis/actions.ts';
import { bindArguments, type Caller, calleeOf, callerOf, sharesLocals, unbind } from '../analysis/calls.ts';
import type { Procedure } from '../analysis/procedures.ts';
import { enterModalCall, isCallDue, leaveModalCall, type ModalCaller } from '../program/callModal.ts';
import { evaluate, placeOf, type Scope } from '../program/evaluate.ts';
import { assign, execute } from '../program/execute.ts';
import { unitScale } from '../program/parameters.ts';
import { restoreModes } from '../program/restoreModes.ts';
import type { State } from '../program/state.ts';
import { isNumber, type Value } from '../program/value.ts';
import type { CompiledProgram, RunNode, RunStep } from './compiledProgram.ts';
import { keepOffsetsInUnit } from './offsetUnits.ts';
import { type PassesLeft, passAgain, repeatsOf, timesOf } from './repeats.ts';
import type { RunEnd } from './runRecord.ts';
import type { VirtualMachine } from './virtualMachine.ts';

interface Frame {
  readonly nodes: readonly RunNode[];
  readonly from: CalledFrom | null;
  /** Runs of the called procedure still to come. */
  again: number;
  readonly left: PassesLeft;
}

/** Where a procedure was called, and what the caller gets back. */
type CalledFrom =
  | { readonly by: 'call'; readonly node: RunNode; readonly caller: Caller; readonly call: Call }
  | { readonly by: 'modal-call'; readonly at: Position; readonly caller: ModalCaller };

/** The step of a node that comes next, and the line of the one before it. */
interface Position {
  readonly node: RunNode;
  readonly step: number;
  readonly line: number;
}

const deepestCalls = 100;

/** One run of a program on a machine, block by block. */
export class ProgramRun {
  private readonly frames: Frame[] = [];
  private node: RunNode | undefined;
  private step = 0;
  blocks = 0;
  line = 0;

  constructor(
    private readonly program: CompiledProgram,
    private readonly machine: VirtualMachine,
    readonly state: State,
  ) {
    if (program.main === null) {
      this.end(
        program.isEmpty
          ? { kind: 'program-end', line: 0 }
          : { kind: 'not-followed', line: 0, text: 'the file holds no main program' },
      );
      return;
    }
    this.enter(program.nodesOf(program.main), null, 1);
  }

  /** Runs the next block; false once the run has ended. */
  next(): boolean {
    if (this.machine.log.ended) return false;
    const { node } = this;
    if (!node) {
      this.end({ kind: 'program-end', line: this.line });
      return false;
    }
    const step = node.steps[this.step++];
    if (step) {
      this.line = step.line;
      this.blocks++;
      this.runBlock(step);
      if (isCallDue(this.state)) this.callModal(node);
    } else this.go(node);
    return !this.machine.log.ended;
  }

  /** Line of the main program that the run is in: of the call, within what is called. */
  get mainLine(): number {
    const from = this.frames[1]?.from;
    return from?.by === 'call' ? from.node.actionLine : (from?.at.line ?? this.line);
  }

  /** Locals of the main program. */
  get mainLocals(): ReadonlyMap<string, Value> {
    for (const { from } of this.frames) {
      if (from?.by === 'modal-call') return from.caller.kept.locals;
      if (from && !sharesLocals(from.call, this.program.dialect)) return from.caller.locals;
    }
    return this.state.locals;
  }

  scope(line = this.line): Scope {
    return { state: this.state, world: this.machine, dialect: this.program.dialect, line };
  }

  private runBlock({ block, line, keepsZero }: RunStep): void {
    this.machine.beginBlock(keepsZero);
    const before = unitScale(this.state, this.machine);
    const ending = execute(block, line, this.state, this.machine, this.program.dialect);
    const after = unitScale(this.state, this.machine);
    if (after !== before) keepOffsetsInUnit(this.state, after / before);
    this.machine.blockDone(this.scope(), 1 / after);
    if (ending === 'program-end') this.end({ kind: 'program-end', line });
    else if (ending === 'alarm') this.end({ kind: 'alarm', line, text: 'an alarm of the program' });
  }

  private go(node: RunNode): void {
    this.blocks++;
    if (node.actionLine >= 0) this.line = node.actionLine;
    if (node.action && node.action.kind !== 'branch') this.machine.beginBlock(false);
    const next = node.action ? this.act(node, node.action) : (node.successors[0] ?? -1);
    if (next === null) return;
    if (next === -1) this.leave();
    else this.moveTo(this.frames.at(-1)?.nodes[next]);
  }

  private moveTo(node: RunNode | undefined): void {
    this.node = node;
    this.step = 0;
  }

  private enter(nodes: readonly RunNode[], from: Frame['from'], again: number): void {
    this.frames.push({ nodes, from, again: again - 1, left: new Map() });
    this.moveTo(nodes[0]);
    if (!nodes[0]) this.leave();
  }

  /** Number of the node that follows, -1 for the end of the procedure; null where a call or an end has seen to it. */
  private act(node: RunNode, action: Action): number | null {
    const scope = this.scope();
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
        this.end({ kind: 'program-end', line: this.line });
        return null;
    }
  }

  private branch(node: RunNode, action: Action & { kind: 'branch' }, scope: Scope): number | null {
    const [whenTrue, whenFalse] = [node.successors[0] ?? -1, node.successors[1] ?? -1];
    const value = action.count
      ? passAgain(node.actionLine, action, this.frames.at(-1)?.left ?? new Map(), scope)
      : action.condition
        ? evaluate(action.condition, scope)
        : 1;
    if (!isNumber(value)) return this.lost('a test on a value that is not known');
    return value !== 0 ? whenTrue : whenFalse;
  }

  private choice(node: RunNode, scope: Scope): number | null {
    const { lines } = this.program.program;
    const flow = lines
      .block(node.actionLine)
      .items.find((item) => item.kind === 'flow' && item.form === 'goto');
    if (flow?.kind !== 'flow' || flow.form !== 'goto') return this.lost('a jump without a target');
    const condition = flow.condition ? evaluate(flow.condition, scope) : 1;
    const target = evaluate(flow.target, scope);
    if (!isNumber(condition) || !isNumber(target)) return this.lost('a jump to a place that is not known');
    if (condition === 0) return node.successors.at(-1) ?? -1;
    const nodes = this.frames.at(-1)?.nodes ?? [];
    const found = nodes.findIndex(({ label }) => label === target);
    if (found >= 0) return found;
    this.end({ kind: 'alarm', line: this.line, text: `a jump to N${target}, which is not there` });
    return null;
  }

  private conditionalSetting(
    node: RunNode,
    action: Action & { kind: 'conditional-setting' },
    scope: Scope,
  ): number | null {
    const value = evaluate(action.condition, scope);
    if (!isNumber(value)) return this.lost('a test on a value that is not known');
    if (value !== 0) {
      const { target, value: given } = action.statement;
      const name = 'number' in target.index ? String(target.index.number) : null;
      const place = placeOf(action.statement, scope);
      const result = evaluate(given, scope);
      if (name === '3000' || name === '3006') this.tell(name, result, node.actionLine);
      else assign(name, result, given, place, scope);
      this.machine.blockDone(scope, 1 / unitScale(this.state, this.machine));
    }
    return this.machine.log.ended ? null : (node.successors[0] ?? -1);
  }

  private tell(name: '3000' | '3006', number: Value, line: number): void {
    const comment = this.program.program.lines.block(line).items.find((item) => item.kind === 'comment');
    const text = comment?.kind === 'comment' ? comment.text.trim() : '';
    const kind = name === '3000' ? 'alarm' : 'message';
    this.machine.event({ kind, text, number }, { line, start: 0, end: 0 });
  }

  private call(node: RunNode, action: Action & { kind: 'call' }, scope: Scope): number | null {
    const name = calleeOf(action.call, scope);
    if (name === null)
      return this.lost(
        action.call.form === 'M97' ? 'a call of blocks of the program by M97' : 'a call of what is not known',
      );
    const callee = this.calleeFrom(name, node.actionLine);
    if (!callee) return null;
    const caller = callerOf(this.state);
    bindArguments(action.call, scope);
    const from = { by: 'call', node, caller, call: action.call } as const;
    this.enter(this.program.nodesOf(callee), from, repeatsOf(action.call, scope));
    return null;
  }

  /** The macro of a G66 follows the block that has just moved. */
  private callModal(node: RunNode): void {
    const last = this.state.modal?.calls.at(-1);
    if (!last || this.machine.log.ended) return;
    const callee =
      last.callee === null
        ? this.lost('a call of what is not known')
        : this.calleeFrom(last.callee, last.line);
    const caller = callee && enterModalCall(this.state);
    if (!callee || !caller) return;
    const at = { node, step: this.step, line: this.line };
    this.enter(this.program.nodesOf(callee), { by: 'modal-call', at, caller }, timesOf(last.repeats));
  }

  /** null: the run has ended for want of it. */
  private calleeFrom(name: string, line: number): Procedure | null {
    const callee = this.program.program.callee(name, line);
    if (typeof callee === 'string') return this.lost(callee);
    if (this.frames.length <= deepestCalls) return callee;
    this.end({ kind: 'endless', line: this.line, text: `calls more than ${deepestCalls} deep` });
    return null;
  }

  private returnFrom(action: Action & { kind: 'return' }, scope: Scope): void {
    const [value] = action.values;
    if (value) this.state.returned = evaluate(value, scope);
    if (this.state.saved?.restoreOnReturn) restoreModes(this.state.saved.modes, scope);
  }

  /** Back to the caller, or once more from the start of what was called; the end of the main program has no node. */
  private leave(): void {
    const frame = this.frames.at(-1);
    if (frame && frame.again > 0 && frame.nodes[0]) {
      frame.again--;
      this.moveTo(frame.nodes[0]);
      return;
    }
    this.frames.pop();
    const from = frame?.from;
    if (!from) {
      this.moveTo(undefined);
      return;
    }
    if (from.by === 'modal-call') {
      leaveModalCall(this.state, from.caller);
      this.node = from.at.node;
      this.step = from.at.step;
      return;
    }
    unbind(from.call, this.state, from.caller, this.program.dialect);
    const next = from.node.successors[0] ?? -1;
    if (next === -1) this.leave();
    else this.moveTo(this.frames.at(-1)?.nodes[next]);
  }

  private lost(text: string): null {
    this.end({ kind: 'not-followed', line: this.line, text });
    return null;
  }

  private end(end: RunEnd): void {
    this.machine.log.end(end);
  }
}
