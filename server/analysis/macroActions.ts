import type { Place } from '../syntax/place.ts';
import type { Block, Expression, MacroFlow } from '../syntax/tree.ts';
import { type Action, procedureEnd } from './actions.ts';
import type { FlowLine } from './flowLines.ts';
import type { FlowFault, NotKnown } from './model.ts';

interface Loop {
  readonly line: number;
  readonly number: number | null;
  readonly condition: Expression | null;
  readonly place: Place;
}

const mostLabels = 200;
/** Every computed jump may lead to every label, and each label's state then flows to every jump: the work grows as jumps² · labels. */
const mostJumpWork = 512;
/** Blocks taken between two pauses. */
const blocksAtOnce = 500;

/** Actions of the macro family's flow within one procedure: GOTO, IF, WHILE. Yields where it may pause. */
export function* macroActions(
  lines: readonly FlowLine[],
  labels: ReadonlyMap<number, number>,
  next: (line: number) => number,
): Generator<void, { actions: Map<number, Action>; faults: FlowFault[]; notKnown: NotKnown[] }> {
  const actions = new Map<number, Action>();
  const faults: FlowFault[] = [];
  const notKnown: NotKnown[] = [];
  const loops: Loop[] = [];
  /** Loops in one of their own number; where one of the two has no END, that is the fault. */
  const nested: { readonly outer: Loop; readonly inner: Loop }[] = [];
  const withoutEnd = new Set<Loop>();
  const outermost = new Map<number, Loop>();
  const ends = new Set<number | null>();
  let computedJumps = 0;
  for (const { block } of lines) {
    const flow = macroFlowOf(block);
    if (flow?.form === 'end') ends.add(flow.loop);
    if (flow?.form === 'goto' && flow.target.kind !== 'number') computedJumps++;
  }
  const followedLabels = Math.min(mostLabels, Math.floor(mostJumpWork / computedJumps ** 2));
  for (const [i, { line, block }] of lines.entries()) {
    if (i % blocksAtOnce === 0) yield;
    const flow = macroFlowOf(block);
    if (!flow) continue;
    const place: Place = { line, start: flow.start, end: flow.end };
    switch (flow.form) {
      case 'goto':
        actions.set(line, goto(flow, line, place, block.blockDelete !== undefined));
        break;
      case 'if-then':
        if (flow.statement)
          actions.set(line, {
            kind: 'conditional-setting',
            condition: flow.condition,
            statement: flow.statement,
          });
        break;
      case 'while-do':
        openLoop({ line, number: flow.loop, condition: flow.condition, place });
        break;
      case 'end':
        closeLoop(flow.loop, line, place);
        break;
    }
  }
  for (const loop of loops) tellOpen(loop, null);
  for (const { outer, inner } of nested)
    if (!withoutEnd.has(outer) && !withoutEnd.has(inner))
      faults.push({
        place: inner.place,
        code: 'same-number',
        detail: `DO${inner.number}`,
        other: outer.place,
      });
  return { actions, faults, notKnown };

  /** `skippable`: behind `/`, so that the operator decides whether it jumps. */
  function goto(flow: MacroFlow & { form: 'goto' }, line: number, place: Place, skippable: boolean): Action {
    const to = flow.target.kind === 'number' ? labels.get(flow.target.value) : undefined;
    if (flow.target.kind === 'number' && to === undefined && flow.target.value !== 0)
      faults.push({ place, code: 'missing-label', detail: String(flow.target.value), other: null });
    if (flow.target.kind === 'number') {
      const target = to ?? (flow.target.value === 0 ? next(line) : procedureEnd);
      if (flow.condition === null && !skippable) return { kind: 'jump', to: target };
      return { kind: 'branch', condition: flow.condition, whenTrue: target, whenFalse: next(line) };
    }
    const all = [...new Set(labels.values())];
    const isFollowed = all.length <= followedLabels;
    if (!isFollowed) notKnown.push({ place, reason: 'computed GOTOs among too many labels: not followed' });
    return {
      kind: 'choice',
      to: [...(isFollowed ? all : []), ...(flow.condition || skippable ? [next(line)] : [])],
    };
  }

  /** The loop that an END belongs to; the innermost one with another number, and a fault, where that has no END at all. */
  function openedAs(number: number | null, place: Place): number {
    const own = loops.findLastIndex((l) => l.number === number);
    const last = loops.at(-1);
    if (own >= 0 || !last || ends.has(last.number)) return own;
    const detail = `END${number ?? ''} DO${last.number ?? ''}`;
    faults.push({ place, code: 'wrong-keyword', detail, other: last.place });
    return loops.length - 1;
  }

  function openLoop(inner: Loop): void {
    const outer = inner.number === null ? undefined : outermost.get(inner.number);
    if (outer) nested.push({ outer, inner });
    else if (inner.number !== null) outermost.set(inner.number, inner);
    loops.push(inner);
  }

  function leaveLoop(loop: Loop): void {
    if (loop.number !== null && outermost.get(loop.number) === loop) outermost.delete(loop.number);
  }

  function tellOpen(loop: Loop, other: Place | null): void {
    leaveLoop(loop);
    withoutEnd.add(loop);
    faults.push({ place: loop.place, code: 'missing-end', detail: `DO${loop.number ?? ''}`, other });
  }

  function closeLoop(number: number | null, line: number, place: Place): void {
    const index = openedAs(number, place);
    const loop = loops[index];
    if (!loop) {
      faults.push({ place, code: 'missing-start', detail: `END${number ?? ''}`, other: null });
      return;
    }
    for (const open of loops.splice(index).slice(1)) tellOpen(open, place);
    leaveLoop(loop);
    actions.set(line, { kind: 'jump', to: loop.line });
    if (loop.condition)
      actions.set(loop.line, {
        kind: 'branch',
        condition: loop.condition,
        whenTrue: next(loop.line),
        whenFalse: next(line),
      });
  }
}

export function macroFlowOf(block: Block): MacroFlow | null {
  for (const item of block.items) if (item.kind === 'flow' && item.form !== 'o-word') return item;
  return null;
}
