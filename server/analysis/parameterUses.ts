import { ChunkFacts } from '../syntax/chunkFacts.ts';
import type { Dialect } from '../syntax/dialect.ts';
import { readMessage } from '../syntax/messages.ts';
import { parseBlock } from '../syntax/parseBlock.ts';
import type { Place } from '../syntax/place.ts';
import type { Source } from '../syntax/source.ts';
import type { Block, Comment, Expression, ParameterExpression, Setting } from '../syntax/tree.ts';
import { toEnd } from './toEnd.ts';

/**
 * A parameter read: its value goes somewhere, a test looks at it, it is asked whether it is there, a comment prints it.
 * `name`: the name in lower case, or the number; null where it is computed.
 */
export interface ParameterRead {
  readonly name: string | null;
  readonly place: Place;
  readonly how: 'value' | 'test' | 'exists' | 'printed';
  /** The parameter that is set to what the value enters; null: it goes somewhere else. */
  readonly into: string | null;
}

export interface ParameterSet {
  readonly name: string | null;
  readonly place: Place;
}

/** What a block does to parameters: all reads come before its settings (NISTIR 6556, 3.3.3). */
export interface ParameterUses {
  readonly line: number;
  readonly reads: readonly ParameterRead[];
  readonly sets: readonly ParameterSet[];
}

/** The blocks that read or set parameters, in order. */
export function parameterUses(source: Source): readonly ParameterUses[] {
  return toEnd(parameterUsesInPieces(source));
}

/** As `parameterUses`; yields where it may pause. */
export function* parameterUsesInPieces(source: Source): Generator<void, readonly ParameterUses[]> {
  const known = kept.get(source);
  if (known) return known;
  const all: ParameterUses[] = [];
  for (const { firstLine, fact } of usesInChunk.in(source)) {
    for (const uses of placed(fact, firstLine)) if (source.classOf(uses.line) === 2) all.push(uses);
    yield;
  }
  kept.set(source, all);
  return all;
}

const kept = new WeakMap<Source, readonly ParameterUses[]>();

interface Placed {
  readonly firstLine: number;
  readonly uses: readonly ParameterUses[];
}

const placedLast = new WeakMap<readonly ParameterUses[], Placed>();

/** Those of a chunk where it stands now: most edits move none. */
function placed(inChunk: readonly ParameterUses[], firstLine: number): readonly ParameterUses[] {
  const known = placedLast.get(inChunk);
  if (known?.firstLine === firstLine) return known.uses;
  const uses = inChunk.map((each) => moved(each, firstLine));
  placedLast.set(inChunk, { firstLine, uses });
  return uses;
}

const usesInChunk = new ChunkFacts<readonly ParameterUses[]>((chunk, lines, dialect) => {
  const found = lines.flatMap((line) => {
    const text = chunk.line(line);
    return text.includes('#') ? [usesOf(parseBlock(text, dialect), line, dialect)] : [];
  });
  return found.length > 0 ? found : null;
});

/** A comment that names a parameter tells a reader what it holds: it is a result. */
function* namedIn({ text, start, end }: Comment, line: number): Iterable<ParameterRead> {
  for (const [, name, number] of text.matchAll(/#(?:<([^<>]+)>|(\d+))/g)) {
    const called = name?.replace(/[ \t]/g, '').toLowerCase() ?? String(Number(number));
    yield { name: called, place: { line, start, end }, how: 'printed', into: null };
  }
}

function moved({ line, reads, sets }: ParameterUses, by: number): ParameterUses {
  const shift = <T extends { readonly place: Place }>(each: T): T => ({
    ...each,
    place: { ...each.place, line: each.place.line + by },
  });
  return { line: line + by, reads: reads.map(shift), sets: sets.map(shift) };
}

function usesOf(block: Block, line: number, dialect: Dialect): ParameterUses {
  const reads: ParameterRead[] = [];
  const sets: ParameterSet[] = [];
  const read = (e: Expression | null | undefined, how: ParameterRead['how'], into: string | null = null) => {
    if (e) for (const each of readsIn(e, how)) reads.push({ ...each, into, place: placeOf(each.at, line) });
  };
  const set = ({ target, value }: Setting) => {
    const name = nameOf(target);
    read(value, 'value', name);
    if ('expression' in target.index) read(target.index.expression, 'value');
    sets.push({ name, place: placeOf(target, line) });
  };
  for (const item of block.items) {
    if (item.kind === 'word') read(item.value, 'value');
    else if (item.kind === 'setting') set(item);
    else if (item.kind === 'output') for (const each of item.parameters) read(each, 'printed');
    else if (item.kind === 'comment') {
      const message = readMessage(block, item, dialect);
      for (const each of message?.parameters ?? []) read(each, 'printed');
      if (!message) reads.push(...namedIn(item, line));
    } else if (item.kind === 'flow' && item.form === 'o-word') {
      const isTest = /^(if|elseif|while|repeat)$/.test(item.keyword);
      read(item.labelExpression, 'value');
      for (const each of item.arguments) read(each, isTest ? 'test' : 'value');
    } else if (item.kind === 'flow') {
      if ('condition' in item) read(item.condition, 'test');
      if (item.form === 'goto') read(item.target, 'value');
      if (item.form === 'if-then' && item.statement) set(item.statement);
    }
  }
  return { line, reads, sets };
}

interface Found {
  readonly name: string | null;
  readonly at: ParameterExpression;
  readonly how: ParameterRead['how'];
}

function* readsIn(e: Expression, how: ParameterRead['how']): Iterable<Found> {
  switch (e.kind) {
    case 'parameter':
      yield { name: nameOf(e), at: e, how };
      if ('expression' in e.index) yield* readsIn(e.index.expression, 'value');
      return;
    case 'unary':
      yield* readsIn(e.operand, how);
      return;
    case 'binary':
      yield* readsIn(e.left, how);
      yield* readsIn(e.right, how);
      return;
    case 'call':
      for (const each of e.arguments) yield* readsIn(each, e.name === 'EXISTS' ? 'exists' : how);
      return;
  }
}

function nameOf({ index }: ParameterExpression): string | null {
  if ('name' in index) return index.name;
  return 'number' in index ? String(index.number) : null;
}

function placeOf({ start, end }: { readonly start: number; readonly end: number }, line: number): Place {
  return { line, start, end };
}
