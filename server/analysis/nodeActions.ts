import { evaluate, placeOf, type Scope } from '../program/evaluate.ts';
import { assign } from '../program/execute.ts';
import { restoreModes } from '../program/restoreModes.ts';
import type { Place } from '../syntax/place.ts';
import type { Expression } from '../syntax/tree.ts';
import type { Action } from './actions.ts';
import { sidesOf, type Test } from './branches.ts';
import type { CallChain, CallChains } from './callChains.ts';
import { bindArguments, calleeOf, callerOf, unbind } from './calls.ts';
import { copyFlow, joinFlows, type Running } from './flowing.ts';
import type { Node } from './graph.ts';
import type { JoinedProgram } from './joinedProgram.ts';
import { lostTrack } from './lostTrack.ts';
import type { PathBooks } from './pathBooks.ts';
import type { Procedure } from './procedures.ts';

/** How a called procedure is followed. */
export interface FollowCall {
  /** In words, why a procedure is not followed here; null where it is. */
  refuse(callee: Procedure): string | null;
  run(callee: Procedure, entry: Running, chain: CallChain): Generator<void, Running | null>;
}

type Ways = { readonly to: number; readonly flow: Running | null }[];

const blocksCalled = 'a call of blocks of the program by M97: what they leave behind is unknown';
export const computedCall = 'a call of what the program computes: what it leaves behind is unknown';

/** What the actions that end a node do to the path: branches, conditional settings, calls, returns. */
export class NodeActions {
  constructor(
    private readonly program: JoinedProgram,
    private readonly chains: CallChains,
    private readonly path: PathBooks,
  ) {}

  /** The books stand turned to the path. */
  *act(node: Node, action: Action, flow: Running, follow: FollowCall): Generator<void, Ways> {
    const { path } = this;
    const scope = path.scopeAt(node.actionLine, flow);
    const next = node.successors[0] ?? -1;
    switch (action.kind) {
      case 'branch':
        return this.branch(node, action.condition, flow, scope);
      case 'choice':
        return node.successors.map((to) => ({ to, flow }));
      case 'conditional-setting':
        return [{ to: next, flow: this.conditionalSetting(action, flow, scope) }];
      case 'call':
        return [{ to: next, flow: yield* this.call(node, action, flow, scope, follow) }];
      case 'return': {
        const values = action.values.map((e) => evaluate(e, scope));
        const place = path.named(action.place);
        for (const value of values) path.books.used(value, 'return', place, flow.state);
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
    this.path.books.asked(value, place);
    const sides = sidesOf(value, flow, scope.dialect, this.testAt(place));
    return [
      { to: whenTrue, flow: sides.whenTrue },
      { to: whenFalse, flow: sides.whenFalse },
    ];
  }

  private testAt(place: Place): Test {
    return { place, openSubroutine: this.path.books.chain.openSubroutine };
  }

  private conditionalSetting(
    action: Action & { kind: 'conditional-setting' },
    flow: Running,
    scope: Scope,
  ): Running {
    const value = evaluate(action.condition, scope);
    if (value === 0) return flow;
    const { books } = this.path;
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
    follow: FollowCall,
  ): Generator<void, Running | null> {
    const { path, chains } = this;
    const { books } = path;
    const { refuse, run } = follow;
    const { chain } = books;
    const lost = (reason: string) => {
      books.record?.notKnown.push({ place: path.atHome(path.named(action.place)), reason });
      return lostTrack(flow, scope.line, reason);
    };
    const name = calleeOf(action.call, scope);
    const unnamed = action.call.form === 'M97' ? blocksCalled : computedCall;
    const callee = name === null ? unnamed : this.program.callee(name, node.actionLine);
    if (typeof callee === 'string') return lost(callee);
    const refusal = refuse(callee);
    if (refusal !== null) return lost(refusal);
    const caller = callerOf(flow.state);
    bindArguments(action.call, scope);
    const inner = chains.chain([...chain.calls, scope.line], chain.openSubroutine);
    const exit = yield* run(callee, flow, inner);
    if (exit) unbind(action.call, exit.state, caller, scope.dialect);
    return exit;
  }
}
