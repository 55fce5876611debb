import { isCallDue } from '../program/callModal.ts';
import { execute } from '../program/execute.ts';
import { type PlainPath, runPlain } from '../program/plainRun.ts';
import type { ProgramLines } from '../syntax/programLines.ts';
import type { Bookkeeping } from './bookkeeping.ts';
import type { CallChain } from './callChains.ts';
import { copyFlow, type Flowing, type Running } from './flowing.ts';
import type { FollowedText } from './followedText.ts';
import { lostTrack } from './lostTrack.ts';
import type { LinesEnding } from './passage.ts';

/** Runs lines of the version that is followed now, in the books of the analysis; plain runs are one step. */
export class LineRunner {
  /** Blocks that were run or read again; a run taken as one step counts once. */
  blocksRun = 0;
  private readonly path: PlainPath;
  private lines: ProgramLines | null = null;

  constructor(
    private readonly text: FollowedText,
    private readonly books: Bookkeeping,
  ) {
    this.path = {
      nameOf: (line) => text.nameOf(line),
      at: (line) => {
        this.blocksRun++;
        return this.startLine(line);
      },
      read: (lines) => {
        this.blocksRun += lines;
      },
      watched: () => books.flow.contact.size > 0,
    };
  }

  /** True where the text has turned to another version. */
  turnTo(lines: ProgramLines): boolean {
    const isOther = lines !== this.lines;
    this.lines = lines;
    return isOther;
  }

  /** Half-open, of lines; `optionalEnd` is a line whose end of the program may be skipped. */
  run(from: number, to: number, optionalEnd: number | null, entry: Flowing, chain: CallChain) {
    const lines = this.lines as ProgramLines;
    let flow = copyFlow(entry);
    this.books.flow = flow;
    this.books.chain = chain;
    let steps = 0;
    let ending: LinesEnding = null;
    for (let line = from; line < to && ending === null; ) {
      const kind = lines.classOf(line);
      if (kind === 0) {
        line++;
        continue;
      }
      steps++;
      if (kind === 1) {
        this.blocksRun++;
        line = runPlain(lines, line, to, flow.state, this.books, this.path);
      } else {
        this.blocksRun++;
        const name = this.startLine(line);
        const result = execute(lines.block(line), name, flow.state, this.books, lines.dialect.name);
        if (line !== optionalEnd) ending = result;
        line++;
      }
      if (flow.state.modal === null || ending !== null) continue;
      if (flow.state.modal.lost !== null) flow = this.loseTrack(flow, line - 1);
      else if (isCallDue(flow.state)) ending = 'modal-call';
    }
    return { flow, ending, steps };
  }

  /** Behind lines of which a macro that is not followed may have been called. */
  private loseTrack(flow: Running, line: number): Running {
    const { modal } = flow.state;
    if (modal?.lost == null) return flow;
    flow.state.modal = { ...modal, due: 'no' };
    this.books.flow = lostTrack(flow, this.text.nameOf(line), modal.lost);
    return this.books.flow;
  }

  private startLine(line: number): number {
    this.books.line = this.text.nameOf(line);
    return this.books.line;
  }
}
