import { aborts } from '../program/execute.ts';
import type { DialectName } from '../syntax/dialect.ts';
import type { Source } from '../syntax/source.ts';
import type { Block } from '../syntax/tree.ts';
import { type Action, procedureEnd } from './actions.ts';
import { flowLinesIn } from './flowLines.ts';
import { lineLabels } from './lineLabels.ts';
import { macroActions, macroFlowOf } from './macroActions.ts';
import type { FlowFault, NotKnown } from './model.ts';
import { oWordActions } from './oWordActions.ts';
import { oWordOf, type Procedure } from './procedures.ts';

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

/** The flow graph of one procedure. */
export function graphOf(source: Source, procedure: Procedure): Graph {
  const others = flowLinesIn(source, procedure.ranges);
  const next = nextLine(procedure);
  const flow = source.dialect.oWords
    ? { ...oWordActions(source, others, next), notKnown: [] }
    : macroActions(source, macroLines(source, others), gotoLabels(source, procedure, others), next);
  for (const line of others) addWordActions(source, line, flow.actions, next);
  const nodes = cut(procedure, flow.actions, next);
  return { procedure, nodes, faults: flow.faults, notKnown: flow.notKnown };
}

function macroLines(source: Source, others: readonly number[]): number[] {
  return others.filter((line) => macroFlowOf(source.block(line)) !== null);
}

/** Labels matter only where something jumps to them; a million N numbers of a milling program are no labels. */
function gotoLabels(source: Source, procedure: Procedure, others: readonly number[]): Map<number, number> {
  const wanted = new Set<number>();
  let computed = false;
  for (const line of others) {
    const flow = macroFlowOf(source.block(line));
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

/** Calls by G65 and M98, returns by M99, ends by M2 and M30. */
function addWordActions(
  source: Source,
  line: number,
  actions: Map<number, Action>,
  next: (line: number) => number,
): void {
  if (actions.has(line)) return;
  const block = source.block(line);
  if (oWordOf(block)) return;
  const words = block.items.filter((i) => i.kind === 'word');
  for (const word of words) {
    if (word.value.kind !== 'number' || (word.letter !== 'G' && word.letter !== 'M')) continue;
    const place = { line, start: word.start, end: word.end };
    const code = `${word.letter}${word.value.value}`;
    if (code === 'G65' || code === 'M98')
      actions.set(line, { kind: 'call', call: { form: code, words }, place });
    else if (code === 'M99')
      actions.set(line, optional(block, { kind: 'return', values: [], place }, line, next));
    else if (code === 'M2' || code === 'M30') actions.set(line, optional(block, { kind: 'end' }, line, next));
  }
  if (!actions.has(line) && stops(block, source.dialect.name)) actions.set(line, { kind: 'end' });
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
function cut(
  procedure: Procedure,
  actions: ReadonlyMap<number, Action>,
  next: (line: number) => number,
): Node[] {
  const leaders = leadersOf(procedure, actions, next);
  const starts = [...leaders].filter((l) => l !== procedureEnd).sort((a, b) => order(a) - order(b));
  const ids = new Map(starts.map((line, id) => [line, id] as const));
  const idOf = (line: number) => (line === procedureEnd ? -1 : (ids.get(line) ?? -1));
  const stops = followingStarts(starts);
  return starts.map((start, id): Node => {
    if (start < procedureEnd) {
      const action = actions.get(start) ?? null;
      return {
        id,
        ranges: [],
        action,
        actionLine: -2 - start,
        successors: targets(action, -2 - start, next).map(idOf),
      };
    }
    const before = stops[id] ?? Number.MAX_SAFE_INTEGER;
    const acting = firstActing(start, before, procedure, actions);
    const action = acting === null ? null : (actions.get(acting) ?? null);
    const stop = acting === null ? before : acting + 1;
    const ranges = clip(procedure, start, stop);
    const last = ranges.at(-1)?.[1] ?? start + 1;
    const successors = action ? targets(action, acting ?? start, next) : [next(last - 1)];
    return { id, ranges, action, actionLine: acting ?? -1, successors: successors.map(idOf) };
  });
}

/** For each start the next real line that starts a node. */
function followingStarts(starts: readonly number[]): number[] {
  const following: number[] = [];
  let next = Number.MAX_SAFE_INTEGER;
  for (let i = starts.length - 1; i >= 0; i--) {
    following[i] = next;
    const start = starts[i] ?? 0;
    if (start >= 0) next = start;
  }
  return following;
}

/** Virtual lines (the test of an elseif, -2 - line) stand where their line stands. */
function order(line: number): number {
  return line < procedureEnd ? -2 - line - 0.5 : line;
}

function leadersOf(
  procedure: Procedure,
  actions: ReadonlyMap<number, Action>,
  next: (line: number) => number,
): Set<number> {
  const leaders = new Set<number>();
  const entry = procedure.ranges[0]?.[0];
  if (entry !== undefined) leaders.add(entry);
  for (const [line, action] of actions) {
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

function firstActing(
  start: number,
  stop: number,
  procedure: Procedure,
  actions: ReadonlyMap<number, Action>,
): number | null {
  const sorted = sortedLines(actions);
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((sorted[middle] ?? 0) < start) low = middle + 1;
    else high = middle;
  }
  const found = sorted[low];
  if (found === undefined || found >= stop) return null;
  return procedure.ranges.some(([a, b]) => found >= a && found < b) ? found : null;
}

const sortedCache = new WeakMap<ReadonlyMap<number, Action>, number[]>();

function sortedLines(actions: ReadonlyMap<number, Action>): number[] {
  let sorted = sortedCache.get(actions);
  if (!sorted) {
    sorted = [...actions.keys()].filter((l) => l >= 0).sort((a, b) => a - b);
    sortedCache.set(actions, sorted);
  }
  return sorted;
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
