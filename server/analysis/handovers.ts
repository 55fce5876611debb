import { shiftsIn } from '../program/workZero.ts';
import type { CallChain } from './callChains.ts';
import type { Flowing } from './flowing.ts';
import type { Graph, Node } from './graph.ts';
import type { JoinedProgram } from './joinedProgram.ts';
import type { Handover } from './model.ts';
import type { PathBooks } from './pathBooks.ts';
import { modesOf } from './touchFacts.ts';

interface Held {
  readonly before: Flowing;
  readonly after: Flowing;
}

/** What a procedure gives back at its `return`, M99 or last line. */
export function handoverAt(
  node: Node,
  held: Held,
  { procedure }: Graph,
  chain: CallChain,
  program: JoinedProgram,
  path: PathBooks,
): Handover {
  const { action } = node;
  const place =
    action?.kind === 'return' ? path.named(action.place) : path.placeOfLine(lastBlock(node, program));
  const isMain = chain.calls.length === 0 && !chain.openSubroutine;
  const where = { kind: isMain ? 'program-end' : 'return', place, header: procedure.header } as const;
  return handover(where, held, chain, program);
}

export function handover(
  where: Pick<Handover, 'kind' | 'place' | 'header'>,
  { before, after }: Held,
  { calls, openSubroutine }: CallChain,
  program: JoinedProgram,
): Handover {
  const dialect = program.lines.dialect.name;
  return {
    ...where,
    calls,
    openSubroutine,
    before: modesOf(before.state),
    after: modesOf(after.state),
    shiftsBefore: shiftsIn(before.state, dialect),
    shifts: shiftsIn(after.state, dialect),
  };
}

function lastBlock({ ranges }: Node, { lines }: JoinedProgram): number {
  const [from, to] = ranges.at(-1) ?? [0, 1];
  let line = to - 1;
  while (line > from && lines.classOf(line) === 0) line--;
  return line;
}
