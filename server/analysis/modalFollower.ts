import { enterModalCall, leaveModalCall } from '../program/callModal.ts';
import type { ModalCall } from '../program/modalCalls.ts';
import type { CallChains } from './callChains.ts';
import { copyFlow, joinFlows, type Running } from './flowing.ts';
import type { FollowedText } from './followedText.ts';
import type { JoinedProgram } from './joinedProgram.ts';
import { lostTrack } from './lostTrack.ts';
import { computedCall, type FollowCall } from './nodeActions.ts';
import type { PathBooks } from './pathBooks.ts';
import type { Procedure } from './procedures.ts';

/** Motions whose calls are followed in one version: behind the others all track is lost. */
const mostMotions = 500;

/** What a G66 calls behind each block that moves. */
export class ModalFollower {
  /** By chain of calls and line. */
  private readonly followed = new Set<string>();

  constructor(
    private readonly program: JoinedProgram,
    private readonly text: FollowedText,
    private readonly chains: CallChains,
    private readonly path: PathBooks,
  ) {}

  /** The flow behind the call that the block of a line asks for; null where no path gets there. The books stand turned to the path. */
  *behind(line: number, flow: Running, follow: FollowCall): Generator<void, Running | null> {
    const { modal } = flow.state;
    const last = modal?.calls.at(-1);
    if (!modal || !last) return flow;
    const uncalled = modal.due === 'maybe' ? copyFlow(flow) : null;
    if (uncalled) uncalled.state.modal = { ...modal, due: 'no' };
    const { chain } = this.path.books;
    const called = yield* this.call(last, line, flow, follow);
    if (!uncalled || !called) return called ?? uncalled;
    return joinFlows(called, uncalled, `${chain.id}modal${this.text.nameOf(line)}`);
  }

  private *call(
    last: ModalCall,
    line: number,
    flow: Running,
    { refuse, run }: FollowCall,
  ): Generator<void, Running | null> {
    const { chain } = this.path.books;
    const callee = this.calleeOf(last, `${chain.id}:${line}`, refuse);
    if (typeof callee === 'string') return this.lost(last, line, flow, callee);
    const caller = enterModalCall(flow.state);
    const inner = this.chains.chain([...chain.calls, this.text.nameOf(line)], chain.openSubroutine);
    const exit = yield* run(callee, flow, inner);
    if (exit && caller) leaveModalCall(exit.state, caller);
    return exit;
  }

  /** In words, why it is not followed, where it is not. */
  private calleeOf(
    { callee: name, line }: ModalCall,
    motion: string,
    refuse: FollowCall['refuse'],
  ): Procedure | string {
    const callee = name === null ? computedCall : this.program.callee(name, this.text.lineOf(line));
    if (typeof callee === 'string') return callee;
    const refusal = refuse(callee);
    if (refusal !== null) return refusal;
    if (!this.followed.has(motion) && this.followed.size >= mostMotions)
      return 'more motions under a G66 than are followed';
    this.followed.add(motion);
    return callee;
  }

  /** From here on each motion may leave anything behind: the runner of lines is told by the state. */
  private lost({ line: started }: ModalCall, line: number, flow: Running, reason: string): Running {
    const { books } = this.path;
    const place = this.path.placeOfLine(this.text.lineOf(started));
    books.record?.notKnown.push({ place: this.path.atHome(place), reason });
    const { modal } = flow.state;
    flow.state.modal = modal && { ...modal, due: 'no', lost: reason };
    return lostTrack(flow, this.text.nameOf(line), reason);
  }
}
