import { letterBit, letterIndex, type PlainTotals } from '../syntax/plainTotals.ts';
import type { ProgramLines } from '../syntax/programLines.ts';
import { runTotals } from '../syntax/runTotals.ts';
import { execute } from './execute.ts';
import { maskOf, namesIn, onlyCode } from './modes.ts';
import { unitScale } from './parameters.ts';
import { axisLetters, type State } from './state.ts';
import { add, given, scale } from './value.ts';
import type { World } from './world.ts';

/** What a driver knows of the path on which a plain run lies. */
export interface PlainPath {
  /** Tells that a line is about to run, and gives the number that states shall know it by. */
  at(line: number): number;
  /** Somebody looks at each motion: blocks are then taken one by one. */
  watched(): boolean;
}

/**
 * Runs the plain lines (G0 to G3, axis words, S, F, literal numbers) from `line` up to `to` or the first line that is
 * not plain: block by block as long as somebody looks on, the rest as one step by what they leave behind. Gives the line
 * behind.
 */
export function runPlain(
  source: ProgramLines,
  line: number,
  to: number,
  state: State,
  world: World,
  path: PlainPath,
): number {
  let current = line;
  while (current < to && source.classOf(current) === 1 && (path.watched() || !summable(state))) {
    execute(source.block(current), path.at(current), state, world, source.dialect.name);
    current++;
  }
  if (current === to || source.classOf(current) !== 1) return current;
  const { totals, end } = runTotals(source, current, to);
  leave(totals, source, state, world, path);
  return end;
}

function summable(state: State): boolean {
  const motion = onlyCode('motion', state.modes.motion);
  return motion === 'G0' || motion === 'G1' || motion === 'G2' || motion === 'G3';
}

const gIndex = letterIndex('G');
const fIndex = letterIndex('F');

/** What a run leaves behind: per axis the last target or the sum of the steps, the motion mode, the feed. */
function leave(totals: PlainTotals, source: ProgramLines, state: State, world: World, path: PlainPath): void {
  const met = (letter: string) => (totals.letters & letterBit(letter)) !== 0;
  const names = namesIn('distance', state.modes.distance);
  const absolute = names.every((n) => n === 'G90' || n === 'unset');
  const incremental = names.every((n) => n === 'G91');
  for (const [axis, letter] of axisLetters.entries()) {
    if (!met(letter)) continue;
    const index = letterIndex(letter);
    if (absolute) state.position[axis] = totals.last[index] ?? 0;
    else if (incremental) state.position[axis] = add(state.position[axis] ?? 0, totals.sum(index));
    else state.position[axis] = given(`distance:${axis}`, 'absolute or incremental is not known here');
  }
  if (met('G')) state.modes.motion = maskOf('motion', `G${totals.last[gIndex] ?? 0}`);
  if (!met('F')) return;
  const word = source.block(totals.feedLine).items.find((i) => i.kind === 'word' && i.letter === 'F');
  const perMinute = namesIn('feedMode', state.modes.feedMode).every((n) => n !== 'G93' && n !== 'G95');
  const feed = totals.last[fIndex] ?? 0;
  state.feed = {
    unset: false,
    value: perMinute
      ? scale(feed, 1 / unitScale(state, world))
      : given('other-feed', 'the feed is not per minute'),
    place: word ? { line: path.at(totals.feedLine), start: word.start, end: word.end } : null,
    byPath: [],
  };
}
