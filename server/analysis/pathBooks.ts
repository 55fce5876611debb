import type { Scope } from '../program/evaluate.ts';
import type { Place } from '../syntax/place.ts';
import type { Bookkeeping } from './bookkeeping.ts';
import type { CallChain } from './callChains.ts';
import type { Running } from './flowing.ts';
import type { FollowedText } from './followedText.ts';
import type { JoinedProgram } from './joinedProgram.ts';
import { wholeLine } from './placesNow.ts';
import type { Record } from './record.ts';

/** The books turned to the path that is followed now, and its lines by the names that the books know them by. */
export class PathBooks {
  constructor(
    private readonly program: JoinedProgram,
    private readonly text: FollowedText,
    readonly books: Bookkeeping,
  ) {}

  turnTo(flow: Running, chain: CallChain, record: Record | null): void {
    const { books } = this;
    books.flow = flow;
    books.chain = chain;
    books.record = record;
  }

  scopeAt(line: number, flow: Running): Scope {
    const { books, text } = this;
    books.line = text.nameOf(line);
    return { state: flow.state, world: books, dialect: this.program.lines.dialect.name, line: books.line };
  }

  named(place: Place): Place {
    return { ...place, line: this.text.nameOf(place.line) };
  }

  placeOfLine(line: number): Place {
    return this.named({ line, start: 0, end: this.program.lines.block(line).text.length });
  }

  /** A place in a called file as the program's own text shows it: the block of the call that leads there. */
  atHome(place: Place): Place {
    const { books, text } = this;
    const isElsewhere = (name: number) => this.program.elsewhere(text.lineOf(name)) !== null;
    if (!isElsewhere(place.line)) return place;
    const call = books.chain.calls.findLast((name) => !isElsewhere(name));
    return call === undefined ? place : { line: call, start: 0, end: wholeLine };
  }
}
