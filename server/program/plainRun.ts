import type { Place } from '../syntax/place.ts';
import { letterBit, letterIndex } from '../syntax/plainTotals.ts';
import type { ProgramLines } from '../syntax/programLines.ts';
import { type RunTotals, runTotals } from '../syntax/runTotals.ts';
import { isCallDue } from './callModal.ts';
import { execute } from './execute.ts';
import { maskOf, unknown, unset } from './modes.ts';
import { unitScale } from './parameters.ts';
import { axisLetters, type State } from './state.ts';
import { add, given, scale } from './value.ts';
import type { World } from './world.ts';

/** What a driver knows of the path on which a plain run lies. */
export interface PlainPath {
  /** The number that states shall know a line by. */
  nameOf(line: number): number;
  /** Tells that a line is about to run, and gives that number. */
  at(line: number): number;
  /** Somebody looks at each motion: blocks are then taken one by one. */
  watched(): boolean;
  /** Tells how many lines had to be read for a run that is taken as one step. */
  read(lines: number): void;
}

/**
 * Runs the plain lines (G0 to G3, axis words, S, F, literal numbers) from `line` up to `to` or the first line that is
 * not plain: block by block as long as somebody looks on, the rest as one step by what they leave behind. A block that a
 * modal call follows is the last. Gives the line behind.
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
  while (current < to && source.classOf(current) === 1 && (path.watched() || !isSummable(state))) {
    execute(source.block(current), path.at(current), state, world, source.dialect.name);
    current++;
    if (isCallDue(state)) return current;
  }
  if (current === to || source.classOf(current) !== 1) return current;
  const run = runTotals(source, current, to, { sums: state.modes.distance === incremental });
  path.read(run.read);
  leave(run, state, world, path);
  return run.end;
}

/**
 * Whether a plain run can be taken as one step where nobody looks on: a touch code in force makes a touch of each block,
 * a canned cycle holds the level that it goes back to, a modal call follows each motion.
 */
export function isSummable({ modes, modal }: State): boolean {
  if (modal === null) return (modes.motion & ~straightOrArc) === 0;
  // Where what follows each motion is not known, nothing will be known of the modes either.
  return modal.lost !== null && (modes.motion & ~(straightOrArc | unknown)) === 0;
}

const motionMasks = ['G0', 'G1', 'G2', 'G3'].map((code) => maskOf('motion', code));
const straightOrArc = motionMasks.reduce((masks, mask) => masks | mask, 0);
const axisIndices = axisLetters.map(letterIndex);
const absoluteOrUnset = maskOf('distance', 'G90') | unset;
const incremental = maskOf('distance', 'G91');
const notPerMinute = maskOf('feedMode', 'G93') | maskOf('feedMode', 'G95');
const gIndex = letterIndex('G');
const fIndex = letterIndex('F');

/** What a run leaves behind: per axis the last target or the sum of the steps, the motion mode, the feed. */
function leave({ totals, first }: RunTotals, state: State, world: World, path: PlainPath): void {
  const { distance, feedMode } = state.modes;
  for (let axis = 0; axis < axisIndices.length; axis++) {
    const index = axisIndices[axis] as number;
    if ((totals.letters & (1 << index)) === 0) continue;
    if ((distance & ~absoluteOrUnset) === 0) state.position[axis] = totals.last(index);
    else if (distance === incremental)
      state.position[axis] = add(state.position[axis] ?? 0, totals.sum(index));
    else state.position[axis] = given(`distance:${axis}`, 'absolute or incremental is not known here');
  }
  if (totals.letters & letterBit('G')) state.modes.motion = motionMasks[totals.last(gIndex)] ?? 0;
  if ((totals.letters & letterBit('F')) === 0) return;
  const feed = totals.last(fIndex);
  const value =
    feedMode & notPerMinute
      ? given('other-feed', 'the feed is not per minute')
      : scale(feed, 1 / unitScale(state, world));
  const { feedLine, feedStart: start, feedEnd: end } = totals;
  const place: Place = { line: path.nameOf(first + feedLine), start, end };
  state.feed = { unset: false, value, place, byPath: [] };
}
