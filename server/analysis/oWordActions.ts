import type { Place } from '../syntax/place.ts';
import type { Expression, OWordFlow } from '../syntax/tree.ts';
import { type Action, procedureEnd } from './actions.ts';
import type { FlowLine } from './flowLines.ts';
import type { FlowFault } from './model.ts';
import { oWordOf, placeOfFlow } from './procedures.ts';

interface Open {
  readonly keyword: 'if' | 'while' | 'do' | 'repeat';
  readonly label: string | null;
  readonly line: number;
  readonly place: Place;
  /** Line of the last if or elseif whose false side still needs a target. */
  undecided: { line: number; flow: OWordFlow } | null;
  /** Lines that jump behind the end: the ends of if-bodies, and breaks. */
  readonly toEnd: number[];
  readonly toContinue: number[];
}

/** Blocks taken between two pauses. */
const blocksAtOnce = 500;

/** Actions of O-word flow within one procedure, and what of it doesn't fit together. Yields where it may pause. */
export function* oWordActions(
  lines: readonly FlowLine[],
  next: (line: number) => number,
): Generator<void, { actions: Map<number, Action>; faults: FlowFault[] }> {
  const builder = new Builder(next);
  for (const [i, { line, block }] of lines.entries()) {
    const flow = oWordOf(block);
    if (flow) builder.add(flow, line);
    if (i % blocksAtOnce === 0) yield;
  }
  builder.close();
  return { actions: builder.actions, faults: builder.faults };
}

class Builder {
  readonly actions = new Map<number, Action>();
  readonly faults: FlowFault[] = [];
  private readonly stack: Open[] = [];
  private readonly wronglyEnded = new Set<Open>();
  /** Each endsub inside something open, and what it is inside of: where that has its end, a return was meant. */
  private readonly early: { readonly place: Place; readonly inside: Open }[] = [];

  constructor(private readonly next: (line: number) => number) {}

  add(flow: OWordFlow, line: number): void {
    const place = placeOfFlow(flow, line);
    switch (flow.keyword) {
      case 'call': {
        const call = {
          form: 'o-word',
          name: flow.label,
          label: flow.labelExpression ?? null,
          arguments: flow.arguments,
        } as const;
        this.actions.set(line, { kind: 'call', call, place });
        return;
      }
      case 'return':
        this.actions.set(line, { kind: 'return', values: flow.arguments, place });
        return;
      case 'endsub':
        this.endSub(flow, line, place);
        return;
      case 'if':
      case 'repeat':
      case 'do':
        this.open(flow.keyword, flow, line, place);
        return;
      case 'while':
        if (!this.closesDo(flow, line)) this.open('while', flow, line, place);
        return;
      case 'elseif':
      case 'else':
        this.alternative(flow, line, place);
        return;
      case 'endif':
      case 'endwhile':
      case 'endrepeat':
        this.end(flow, line, place);
        return;
      case 'break':
      case 'continue':
        this.leave(flow, line, place);
        return;
      case 'sub':
        return;
    }
  }

  /** What is still open at the end of the procedure has no end. */
  close(): void {
    for (const open of this.stack.splice(0)) {
      // An end of the wrong kind stood for its end, and was told.
      if (!this.wronglyEnded.has(open))
        this.faults.push({ place: open.place, code: 'missing-end', detail: open.keyword, other: null });
      this.resolve(open, procedureEnd, procedureEnd);
    }
  }

  private open(keyword: Open['keyword'], flow: OWordFlow, line: number, place: Place): void {
    const undecided = keyword === 'do' ? null : { line, flow };
    this.stack.push({ keyword, label: flow.label, line, place, undecided, toEnd: [], toContinue: [] });
  }

  private closesDo(flow: OWordFlow, line: number): boolean {
    const top = this.stack.at(-1);
    if (top?.keyword !== 'do' || top.label !== flow.label) return false;
    this.stack.pop();
    this.tellEarly(top);
    this.branch(line, flow, this.next(top.line), this.next(line));
    this.resolve(top, this.next(line), line);
    return true;
  }

  private alternative(flow: OWordFlow, line: number, place: Place): void {
    const top = this.matching(flow, place, (o) => o.keyword === 'if');
    if (!top) return;
    if (top.undecided)
      this.branch(
        top.undecided.line,
        top.undecided.flow,
        this.next(top.undecided.line),
        this.entry(flow, line),
      );
    top.undecided = flow.keyword === 'elseif' ? { line, flow } : null;
    top.toEnd.push(line);
  }

  /** A false `if` goes on at the test of an elseif, or behind an else: both need a line of their own to jump to. */
  private entry(flow: OWordFlow, line: number): number {
    return flow.keyword === 'elseif' ? -2 - line : this.next(line);
  }

  private end(flow: OWordFlow, line: number, place: Place): void {
    const opener = { endif: 'if', endwhile: 'while', endrepeat: 'repeat' }[flow.keyword as 'endif'];
    const top = this.matching(flow, place, (o) => o.keyword === opener);
    if (!top) return;
    this.stack.pop();
    this.tellEarly(top);
    const after = this.next(line);
    if (opener === 'if') {
      this.resolve(top, after, after);
      return;
    }
    if (opener === 'repeat' && runsAtLeastOnce(top)) {
      this.actions.set(line, {
        kind: 'branch',
        condition: null,
        whenTrue: this.next(top.line),
        whenFalse: after,
        ...countOf(top.undecided?.flow),
      });
      top.undecided = null;
      this.resolve(top, after, line);
      return;
    }
    this.actions.set(line, { kind: 'jump', to: top.line });
    if (top.undecided) this.branch(top.line, top.undecided.flow, this.next(top.line), after);
    top.undecided = null;
    this.resolve(top, after, top.line);
  }

  /** The open structure that a keyword belongs to; faults where labels or kinds don't fit. */
  private matching(flow: OWordFlow, place: Place, fits: (open: Open) => boolean): Open | null {
    let index = this.stack.length - 1;
    while (index >= 0 && this.stack[index]?.label !== flow.label) index--;
    const found = this.stack[index];
    if (!found) {
      this.faults.push({ place, code: 'missing-start', detail: flow.keyword, other: null });
      return null;
    }
    for (const open of this.stack.splice(index + 1)) {
      this.faults.push({ place: open.place, code: 'missing-end', detail: open.keyword, other: place });
      this.resolve(open, place.line, place.line);
    }
    if (fits(found)) return found;
    if (flow.keyword.startsWith('end')) this.wronglyEnded.add(found);
    this.faults.push({
      place,
      code: 'wrong-keyword',
      detail: `${flow.keyword} ${found.keyword}`,
      other: found.place,
    });
    return null;
  }

  private leave(flow: OWordFlow, line: number, place: Place): void {
    const loop = this.stack.findLast((o) => o.keyword !== 'if' && o.label === flow.label);
    if (!loop) {
      this.faults.push({ place, code: 'outside-loop', detail: flow.keyword, other: null });
      return;
    }
    (flow.keyword === 'break' ? loop.toEnd : loop.toContinue).push(line);
  }

  private endSub(flow: OWordFlow, line: number, place: Place): void {
    const inside = this.stack[0];
    if (inside) this.early.push({ place, inside });
    this.actions.set(line, { kind: 'return', values: flow.arguments, place });
  }

  private tellEarly(closed: Open): void {
    for (const { place, inside } of this.early)
      if (inside === closed)
        this.faults.push({ place, code: 'endsub-inside', detail: inside.keyword, other: inside.place });
  }

  private resolve(open: Open, after: number, again: number): void {
    if (open.undecided)
      this.branch(open.undecided.line, open.undecided.flow, this.next(open.undecided.line), after);
    for (const line of open.toEnd) {
      const own = this.actions.get(line);
      // An elseif is both the end of the body above it and a test: the jump stands under its negative line.
      if (own?.kind === 'branch') this.actions.set(-2 - line, own);
      this.actions.set(line, { kind: 'jump', to: after });
    }
    for (const line of open.toContinue) this.actions.set(line, { kind: 'jump', to: again });
  }

  private branch(line: number, flow: OWordFlow, whenTrue: number, whenFalse: number): void {
    const condition = flow.keyword === 'repeat' ? null : (flow.arguments[0] ?? null);
    this.actions.set(line, { kind: 'branch', condition, whenTrue, whenFalse, ...countOf(flow) });
  }
}

/** `repeat [4]` runs its body before it can leave. */
function runsAtLeastOnce(open: Open): boolean {
  const count = open.undecided?.flow.arguments[0];
  return count?.kind === 'number' && count.value >= 1;
}

function countOf(flow: OWordFlow | undefined): { readonly count?: Expression } {
  const count = flow?.keyword === 'repeat' ? flow.arguments[0] : undefined;
  return count ? { count } : {};
}
