import { type PlainWords, plainWords, scanPlainLine } from '../syntax/plainLine.ts';
import type { ProgramLines } from '../syntax/programLines.ts';
import { execute } from './execute.ts';
import { maskOf, namesIn, onlyCode } from './modes.ts';
import { unitScale } from './parameters.ts';
import { axisLetters, type State } from './state.ts';
import { add, given, scale } from './value.ts';
import type { World } from './world.ts';

/** Blocks of a plain run that are always taken one by one: what follows a touch is decided by its first motions. */
const takenSingly = 8;

/**
 * Runs the plain lines (G0 to G3, axis words, S, F, literal numbers) from `line` up to `to` or the first line that is
 * not plain: the first few block by block, the rest as one step by what they leave behind. Gives the line behind.
 */
export function runPlain(
  source: ProgramLines,
  line: number,
  to: number,
  state: State,
  world: World,
  at: (line: number) => void,
): number {
  let current = line;
  const singly = Math.min(to, line + takenSingly);
  while (current < singly && source.classOf(current) === 1) {
    at(current);
    execute(source.block(current), current, state, world, source.dialect.name);
    current++;
  }
  if (current < singly || !summable(state)) return current;
  return runSummed(source, current, to, state, world);
}

function summable(state: State): boolean {
  const motion = onlyCode('motion', state.modes.motion);
  return motion === 'G0' || motion === 'G1' || motion === 'G2' || motion === 'G3';
}

interface Summary {
  /** The limit that the run was read with, and the line behind it. */
  readonly to: number;
  end: number;
  /** Bit of each letter that was met. */
  seen: number;
  readonly last: Float64Array;
  readonly sum: Float64Array;
  feedLine: number;
}

const letterIndex = (letter: string) => letter.charCodeAt(0) - 65;
const gIndex = letterIndex('G');
const fIndex = letterIndex('F');

/** Summaries of the runs of a text, by where they begin: a fixpoint comes by more than once. */
const summaries = new WeakMap<ProgramLines, Map<number, Summary>>();

function runSummed(source: ProgramLines, from: number, to: number, state: State, world: World): number {
  const known = summaries.get(source) ?? new Map<number, Summary>();
  summaries.set(source, known);
  let summary = known.get(from);
  if (summary?.to !== to) {
    summary = summarise(source, from, to);
    known.set(from, summary);
  }
  leave(summary, source, state, world);
  return summary.end;
}

function summarise(source: ProgramLines, from: number, to: number): Summary {
  const last = new Float64Array(26);
  const summary: Summary = { to, end: from, seen: 0, last, sum: new Float64Array(26), feedLine: -1 };
  const words = plainWords();
  let line = from;
  while (line < to && source.classOf(line) <= 1) {
    const held = source.chunkAt(line);
    if (!held) break;
    const end = Math.min(to, held.firstLine + held.chunk.lineCount);
    for (; line < end; line++) {
      const kind = source.classOf(line);
      if (kind > 1) break;
      if (kind === 0) continue;
      const local = line - held.firstLine;
      const { chunk } = held;
      scanPlainLine(chunk.text, chunk.lineStart(local), chunk.contentEnd(local), words);
      take(words, line, summary);
    }
  }
  summary.end = line;
  return summary;
}

function take({ present, values }: PlainWords, line: number, summary: Summary): void {
  summary.seen |= present;
  if (present & (1 << fIndex)) summary.feedLine = line;
  for (let rest = present; rest !== 0; rest &= rest - 1) {
    const i = 31 - Math.clz32(rest & -rest);
    const value = values[i] as number;
    summary.last[i] = value;
    summary.sum[i] = (summary.sum[i] as number) + value;
  }
}

/** What a run leaves behind: per axis the last target or the sum of the steps, the motion mode, the feed. */
function leave(summary: Summary, source: ProgramLines, state: State, world: World): void {
  const met = (index: number) => (summary.seen & (1 << index)) !== 0;
  const names = namesIn('distance', state.modes.distance);
  const absolute = names.every((n) => n === 'G90' || n === 'unset');
  const incremental = names.every((n) => n === 'G91');
  for (const [axis, letter] of axisLetters.entries()) {
    const index = letterIndex(letter);
    if (!met(index)) continue;
    if (absolute) state.position[axis] = summary.last[index] ?? 0;
    else if (incremental) state.position[axis] = add(state.position[axis] ?? 0, summary.sum[index] ?? 0);
    else state.position[axis] = given(`distance:${axis}`, 'absolute or incremental is not known here');
  }
  if (met(gIndex)) state.modes.motion = maskOf('motion', `G${summary.last[gIndex] ?? 0}`);
  if (!met(fIndex)) return;
  const word = source.block(summary.feedLine).items.find((i) => i.kind === 'word' && i.letter === 'F');
  const perMinute = namesIn('feedMode', state.modes.feedMode).every((n) => n !== 'G93' && n !== 'G95');
  const feed = summary.last[fIndex] ?? 0;
  state.feed = {
    unset: false,
    value: perMinute
      ? scale(feed, 1 / unitScale(state, world))
      : given('other-feed', 'the feed is not per minute'),
    place: word ? { line: summary.feedLine, start: word.start, end: word.end } : null,
    byPath: [],
  };
}
