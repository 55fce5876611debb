import type { Place } from '../syntax/place.ts';
import type { Source } from '../syntax/source.ts';
import type { Block, OWordFlow } from '../syntax/tree.ts';
import { flowLinesInPieces } from './flowLines.ts';
import type { FlowFault } from './model.ts';
import { toEnd } from './toEnd.ts';

/** A stretch of lines that runs as one: the main program or a subroutine. */
export interface Procedure {
  /** Name or number as calls write it; null for the main program. */
  readonly name: string | null;
  /** The line that names it, -1 for a main program without one. */
  readonly header: number;
  /** Lines of its body, in order, as half-open ranges. */
  readonly ranges: readonly (readonly [number, number])[];
  readonly place: Place | null;
}

export interface Procedures {
  readonly all: readonly Procedure[];
  readonly byName: ReadonlyMap<string, Procedure>;
  /** Where the program starts: the main program, or null where the file holds subroutines only. */
  readonly main: Procedure | null;
  readonly faults: readonly FlowFault[];
}

const known = new WeakMap<Source, Procedures>();
/** Lines taken between two pauses. */
const linesAtOnce = 1000;

/** Splits a file into its main program and its subroutines. Kept: who asks for names asks again and again. */
export function proceduresOf(source: Source): Procedures {
  return toEnd(proceduresInPieces(source));
}

/** As `proceduresOf`; yields where it may pause. */
export function* proceduresInPieces(source: Source): Generator<void, Procedures> {
  const before = known.get(source);
  if (before) return before;
  const made = yield* source.dialect.oWords ? oWordProcedures(source) : numberedPrograms(source);
  // Somebody may have asked during a pause: all get the same.
  const kept = known.get(source) ?? made;
  known.set(source, kept);
  return kept;
}

function* oWordProcedures(source: Source): Generator<void, Procedures> {
  const faults: FlowFault[] = [];
  const subs: Procedure[] = [];
  const main: [number, number][] = [];
  let from = 0;
  let open: { line: number; flow: OWordFlow } | null = null;
  let body = new SubroutineBody();
  const close = (end: number, after: number) => {
    if (!open) return;
    const place = placeOfFlow(open.flow, open.line);
    subs.push({ name: open.flow.label, header: open.line, ranges: [[open.line + 1, end]], place });
    open = null;
    from = after;
  };
  let taken = 0;
  for (const { line, block } of yield* flowLinesInPieces(source)) {
    if (++taken % linesAtOnce === 0) yield;
    const flow = oWordOf(block);
    if (flow?.keyword === 'sub') {
      if (open) {
        if (body.end === null) faults.push(missingEnd(open, flow, line));
        close(body.end ?? line, body.end ?? line);
      }
      if (line > from) main.push([from, line]);
      open = { line, flow };
      body = new SubroutineBody();
    } else if (flow?.keyword === 'endsub') {
      if (open === null)
        faults.push({ place: placeOfFlow(flow, line), code: 'missing-start', detail: 'endsub', other: null });
      else if (!body.endsInside(line)) close(line + 1, line + 1);
    } else if (flow) body.add(flow, line);
  }
  if (open) {
    if (body.end === null) faults.push(missingEnd(open, null, source.lineCount));
    close(body.end ?? source.lineCount, body.end ?? source.lineCount);
  }
  if (from < source.lineCount) main.push([from, source.lineCount]);
  return yield* assemble(source, main, -1, null, subs, faults);
}

/** Tells an endsub inside an if or a loop, where a return was meant, from the one that ends the subroutine. */
class SubroutineBody {
  /** Behind the last line that belongs to the body, once an endsub was met inside something open. */
  end: number | null = null;
  private readonly labels: (string | null)[] = [];

  add({ keyword, label }: OWordFlow, line: number): void {
    const top = this.labels.at(-1);
    const closesDo = keyword === 'while' && this.labels.length > 0 && top === label;
    if (closesDo || /^end(if|while|repeat)$/.test(keyword)) {
      const at = this.labels.lastIndexOf(label);
      if (at >= 0) this.labels.splice(at);
      if (this.end !== null) this.end = line + 1;
    } else if (/^(if|while|do|repeat)$/.test(keyword)) this.labels.push(label);
  }

  endsInside(line: number): boolean {
    if (this.labels.length === 0) return false;
    this.end = line + 1;
    return true;
  }
}

function missingEnd(
  open: { line: number; flow: OWordFlow },
  next: OWordFlow | null,
  line: number,
): FlowFault {
  const other = next ? placeOfFlow(next, line) : null;
  return { place: placeOfFlow(open.flow, open.line), code: 'missing-end', detail: 'sub', other };
}

/** In the macro family `O0020` begins a program; those after the first are subroutines. */
function* numberedPrograms(source: Source): Generator<void, Procedures> {
  const heads: { line: number; name: string; place: Place }[] = [];
  let taken = 0;
  for (const { line, block } of yield* flowLinesInPieces(source)) {
    if (++taken % linesAtOnce === 0) yield;
    const word = block.items.find((i) => i.kind === 'word' && i.letter === 'O');
    if (word?.kind === 'word' && word.value.kind === 'number')
      heads.push({ line, name: String(word.value.value), place: { line, start: word.start, end: word.end } });
  }
  // A program that has ended before the first number has none itself.
  const nameless = heads[0] !== undefined && (yield* endsIn(source, heads[0].line));
  const first = nameless ? undefined : heads[0];
  const called = nameless ? heads : heads.slice(1);
  const subs = called.map((head, i): Procedure => {
    const end = called[i + 1]?.line ?? source.lineCount;
    return { name: head.name, header: head.line, ranges: [[head.line + 1, end]], place: head.place };
  });
  const end = called[0]?.line ?? source.lineCount;
  return yield* assemble(
    source,
    [[0, end]],
    first?.line ?? -1,
    first ? { name: first.name, place: first.place } : null,
    subs,
    [],
  );
}

/** Whether an M2 or M30 stands before a line. */
function* endsIn(source: Source, before: number): Generator<void, boolean> {
  if (before === 0) return false;
  for (const { line, block } of yield* flowLinesInPieces(source)) {
    if (line >= before) return false;
    if (block.items.some((item) => item.kind === 'word' && isEnd(item.letter, item.value))) return true;
  }
  return false;
}

function* assemble(
  source: Source,
  main: [number, number][],
  header: number,
  head: { name: string; place: Place } | null,
  subs: readonly Procedure[],
  faults: FlowFault[],
): Generator<void, Procedures> {
  const body: Procedure = { name: head?.name ?? null, header, ranges: main, place: head?.place ?? null };
  const isMain = head ? !(yield* onlyReturns(source, main)) : yield* hasCode(source, main);
  const all = isMain || head ? [body, ...subs] : subs;
  const byName = new Map<string, Procedure>();
  for (const p of all) if (p.name !== null && !byName.has(p.name)) byName.set(p.name, p);
  return { all, byName, main: isMain ? body : null, faults };
}

/** A numbered program that ends in M99 and nowhere in M2 or M30 is a subroutine that another file calls. */
function* onlyReturns(source: Source, ranges: Procedure['ranges']): Generator<void, boolean> {
  let returns = false;
  let taken = 0;
  for (const { line, block } of yield* flowLinesInPieces(source)) {
    if (++taken % linesAtOnce === 0) yield;
    if (!ranges.some(([a, b]) => line >= a && line < b)) continue;
    for (const item of block.items) {
      if (item.kind !== 'word' || item.letter !== 'M' || item.value.kind !== 'number') continue;
      if (item.value.value === 2 || item.value.value === 30) return false;
      if (item.value.value === 99) returns = true;
    }
  }
  return returns;
}

function* hasCode(source: Source, ranges: Procedure['ranges']): Generator<void, boolean> {
  let taken = 0;
  for (const [from, to] of ranges)
    for (let line = from; line < to; line++) {
      if (++taken % linesAtOnce === 0) yield;
      const kind = source.classOf(line);
      if (kind === 1 || (kind === 2 && isCode(source.block(line)))) return true;
    }
  return false;
}

/** An M2 or % behind the last endsub ends the file; it is no main program. */
function isCode({ items }: Block): boolean {
  if (items.some((i) => i.kind === 'setting' || i.kind === 'flow')) return true;
  return items.some((i) => i.kind === 'word' && !isEnd(i.letter, i.value));
}

function isEnd(letter: string, value: { kind: string; value?: unknown }): boolean {
  return letter === 'M' && value.kind === 'number' && (value.value === 2 || value.value === 30);
}

export function oWordOf(block: Block): OWordFlow | null {
  for (const item of block.items) if (item.kind === 'flow' && item.form === 'o-word') return item;
  return null;
}

export function placeOfFlow(flow: OWordFlow, line: number): Place {
  return { line, start: flow.labelSpan.start, end: flow.keywordSpan.end };
}
