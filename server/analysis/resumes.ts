import type { CallChain } from './callChains.ts';
import type { Flowing } from './flowing.ts';

export interface Resume {
  readonly line: number;
  readonly flow: Flowing;
}

/** Lines that paths go on with behind what a G66 called, with what holds there: who asks for a line begins at the last one. */
export class Resumes {
  private readonly byChain = new Map<CallChain, Map<number, Flowing>>();

  note(chain: CallChain, line: number, flow: Flowing): void {
    const known = this.byChain.get(chain) ?? new Map<number, Flowing>();
    this.byChain.set(chain, known);
    known.set(line, flow);
  }

  /** The last one in half-open lines. */
  lastIn(chain: CallChain, from: number, to: number): Resume | null {
    let last: Resume | null = null;
    for (const [line, flow] of this.byChain.get(chain) ?? [])
      if (line >= from && line < to && (last === null || line > last.line)) last = { line, flow };
    return last;
  }
}
