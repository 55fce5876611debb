import { takesEveryWord } from '../program/codeWords.ts';
import { aborts } from '../program/execute.ts';
import type { DialectName } from '../syntax/dialect.ts';
import type { Source } from '../syntax/source.ts';
import type { Block, Word } from '../syntax/tree.ts';
import { type Action, procedureEnd } from './actions.ts';
import { type FlowLine, flowLinesIn, flowLinesInPieces } from './flowLines.ts';
import { lineLabels } from './lineLabels.ts';
import { macroActions, macroFlowOf } from './macroActions.ts';
import type { FlowFault, NotKnown } from './model.ts';
import { oWordActions } from './oWordActions.ts';
import { oWordOf, type Procedure } from './procedures.ts';
import { toEnd } from './toEnd.ts';

/** A stretch of lines with one way in and one way out. */
export interface Node {
  readonly id: number;
  /** Half-open ranges of lines that run in order before the way out; the acting line is the last. */
  readonly ranges: readonly (readonly [number, number])[];
  /** What the last line does, null where the next node follows. */
  readonly action: Action | null;
  readonly actionLine: number;
  /** Ids of the nodes that may follow; -1 is the end of the procedure. For a branch: true side first. */
  readonly successors: readonly number[];
}

export interface Graph {
  readonly procedure: Procedure;
  /** In order of their first lines; the first is the entry. */
  readonly nodes: readonly Node[];
  readonly faults: readonly FlowFault[];
  readonly notKnown: readonly NotKnown[];
}

/** Lines or nodes taken between two pauses. */
const atOnce = 500;

/** The flow graph of one procedure. */
export function graphOf(source: Source, procedure: Procedure): Graph {
  return toEnd(graphInPieces(source, procedure));
}

/** As `graphOf`; yields where it may pause. */
export function* graphInPieces(source: Source, procedure: Procedure): Generator<void, Graph> {
  yield* flowLinesInPieces(source);
  const others = flowLinesIn(source, procedure.ranges);
  const next = nextLine(procedure);
  const flow = source.dialect.oWords
    ? { ...(yield* oWordActions(others, next)), notKnown: [] }
    : yield* macroActions(others, gotoLabels(source, procedure, others), next);
  for (const [i, line] of others.entries()) {
    addWordActions(line, source.dialect.name, flow.actions, next);
    if (i % atOnce === 0) yield;
  }
  const nodes = yield* cut(procedure, flow.actions, next);
  return { procedure, nodes, faults: flow.faults, notKnown: flow.notKnown };
}

/** Labels matter only where something jumps to them; a million N numbers of a milling program are no labels. */
function gotoLabels(source: Source, procedure: Procedure, others: readonly FlowLine[]): Map<number, number> {
  const wanted = new Set<number>();
  let computed = false;
  for (const { block } of others) {
    const flow = macroFlowOf(block);
    if (flow?.form !== 'goto') continue;
    if (flow.target.kind === 'number') wanted.add(flow.target.value);
    else computed = true;
  }
  if (wanted.size === 0 && !computed) return new Map();
  return lineLabels(source, procedure.ranges, computed ? null : wanted);
}

function nextLine(procedure: Procedure): (line: number) => number {
  return (line) => {
    for (const [a, b] of procedure.ranges) {
      if (line + 1 < a) return a;
      if (line + 1 < b) return line + 1;
    }
    return procedureEnd;
  };
}

/** Calls by G65, M97 and M98, returns by M99, ends by M2 and M30. */
function addWordActions(
  { line, block }: FlowLine,
  dialect: DialectName,
  actions: Map<number, Action>,
  next: (line: number) => number,
): void {
  if (actions.has(line)) return;
  if (oWordOf(block)) return;
  const words = block.items.filter((i) => i.kind === 'word');
  for (const word of words) {
    if (word.value.kind !== 'number' || (word.letter !== 'G' && word.letter !== 'M')) continue;
    const place = { line, start: word.start, end: word.end };
    const code = `${word.letter}${word.value.value}`;
    const calls = code === 'G65' || code === 'M98' || (code === 'M97' && callsBlocks(words, dialect));
    if (calls) actions.set(line, { kind: 'call', call: { form: code, words }, place });
    else if (code === 'M99')
      actions.set(line, optional(block, { kind: 'return', values: [], place }, line, next));
    else if (code === 'M2' || code === 'M30') actions.set(line, optional(block, { kind: 'end' }, line, next));
    // What follows are arguments.
    if (takesEveryWord(code, dialect)) break;
  }
  if (!actions.has(line) && stops(block, dialect)) actions.set(line, { kind: 'end' });
}

/** M97 without P ends what M96 began (common practice, no source). */
function callsBlocks(words: readonly Word[], dialect: DialectName): boolean {
  return dialect === 'macro' && words.some(({ letter }) => letter === 'P');
}

/** An end behind `/` may be skipped: the program may go on. */
function optional(block: Block, action: Action, line: number, next: (line: number) => number): Action {
  return block.blockDelete
    ? { kind: 'branch', condition: null, whenTrue: procedureEnd, whenFalse: next(line) }
    : action;
}

function stops(block: Block, dialect: DialectName): boolean {
  if (dialect === 'rs274ngc') return aborts(block, dialect);
  return block.items.some(
    (i) => i.kind === 'setting' && 'number' in i.target.index && i.target.index.number === 3000,
  );
}

/** Cuts a procedure into nodes at every line that acts or that something jumps to. */
function* cut(
  procedure: Procedure,
  actions: ReadonlyMap<number, Action>,
  next: (line: number) => number,
): Generator<void, Node[]> {
  const starts = yield* inOrder(yield* leadersOf(procedure, actions, next));
  const acting = (yield* inOrder(actions)).filter(Number.isInteger);
  yield;
  const nodes: Node[] = [];
  for (let id = 0; id < starts.length; id++) {
    nodes.push(nodeFrom(id));
    if (id % atOnce === 0) yield;
  }
  return nodes;

  function idOf(line: number): number {
    const found = firstFrom(starts, placeOf(line));
    return line !== procedureEnd && starts[found] === placeOf(line) ? found : -1;
  }

  function nodeFrom(id: number): Node {
    const place = starts[id] ?? 0;
    if (!Number.isInteger(place)) {
      const line = place + 0.5;
      const action = actions.get(-2 - line) ?? null;
      return { id, ranges: [], action, actionLine: line, successors: targets(action, line, next).map(idOf) };
    }
    const start = place;
    let behind = id + 1;
    while (behind < starts.length && !Number.isInteger(starts[behind])) behind++;
    const before = starts[behind] ?? Number.MAX_SAFE_INTEGER;
    const line = firstActing(start, before, procedure, acting);
    const action = line === null ? null : (actions.get(line) ?? null);
    const ranges = clip(procedure, start, line === null ? before : line + 1);
    const last = ranges.at(-1)?.[1] ?? start + 1;
    const successors = action ? targets(action, line ?? start, next) : [next(last - 1)];
    return { id, ranges, action, actionLine: line ?? -1, successors: successors.map(idOf) };
  }
}

/** Where a line stands among the others: virtual ones (the test of an elseif, -2 - line) just before theirs. */
function placeOf(line: number): number {
  return line < procedureEnd ? -2 - line - 0.5 : line;
}

/** The places of lines, ascending. */
function* inOrder(lines: { readonly size: number; keys(): Iterable<number> }): Generator<void, Float64Array> {
  const places = new Float64Array(lines.size);
  let taken = 0;
  for (const line of lines.keys()) {
    places[taken++] = placeOf(line);
    if (taken % atOnce === 0) yield;
  }
  return places.sort();
}

/** Index of the first place that is not before `place`. */
function firstFrom(places: Float64Array, place: number): number {
  let low = 0;
  let high = places.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((places[middle] ?? 0) < place) low = middle + 1;
    else high = middle;
  }
  return low;
}

function* leadersOf(
  procedure: Procedure,
  actions: ReadonlyMap<number, Action>,
  next: (line: number) => number,
): Generator<void, Set<number>> {
  const leaders = new Set<number>();
  const entry = procedure.ranges[0]?.[0];
  if (entry !== undefined) leaders.add(entry);
  let taken = 0;
  for (const [line, action] of actions) {
    if (++taken % atOnce === 0) yield;
    const real = line < procedureEnd ? -2 - line : line;
    for (const target of targets(action, real, next)) leaders.add(target);
    if (line >= 0) leaders.add(next(line));
    if (line < procedureEnd) leaders.add(line);
  }
  leaders.delete(procedureEnd);
  return leaders;
}

function targets(action: Action | null, line: number, next: (line: number) => number): number[] {
  switch (action?.kind) {
    case 'jump':
      return [action.to];
    case 'branch':
      return [action.whenTrue, action.whenFalse];
    case 'choice':
      return [...action.to];
    case 'return':
    case 'end':
      return [procedureEnd];
    default:
      return [next(line)];
  }
}

function firstActing(start: number, stop: number, procedure: Procedure, sorted: Float64Array): number | null {
  const found = sorted[firstFrom(sorted, start)];
  if (found === undefined || found >= stop) return null;
  return procedure.ranges.some(([a, b]) => found >= a && found < b) ? found : null;
}

function clip(procedure: Procedure, from: number, to: number): (readonly [number, number])[] {
  const clipped: [number, number][] = [];
  for (const [a, b] of procedure.ranges) {
    const start = Math.max(a, from);
    const end = Math.min(b, to);
    if (start < end) clipped.push([start, end]);
  }
  return clipped;
}
