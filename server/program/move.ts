import type { Place } from '../syntax/place.ts';
import type { Word } from '../syntax/tree.ts';
import { type Cycle, takeCycle } from './cycle.ts';
import { placeOf, type Scope } from './evaluate.ts';
import { fromWork, toWork } from './frame.ts';
import { legsOf } from './legs.ts';
import { namesIn, onlyCode } from './modes.ts';
import { withoutPolar } from './polarWords.ts';
import type { ReadBlock } from './readBlock.ts';
import { axisLetters } from './state.ts';
import { machineTarget, writtenTarget } from './target.ts';
import { given, type Value } from './value.ts';
import type { Motion, TouchCode } from './world.ts';

const touchCodes: readonly string[] = ['G38.2', 'G38.3', 'G38.4', 'G38.5'];

/** The motion of a block, if its axis words make one: a touch, a straight move, an arc, a canned cycle. True where they do. */
export function moveBlock(written: ReadBlock, scope: Scope): boolean {
  const read = withoutPolar(written, scope);
  const axes: number[] = [];
  for (let i = 0; i < axisLetters.length; i++) if (read.words.has(axisLetters[i] ?? '')) axes.push(i);
  const probing = touchWord(read, axes, scope);
  if (probing) touch(probing.code, probing.word, axes, read, scope);
  else if (axes.length > 0 || movesWithoutAxes(read, scope)) plainMotion(read, axes, scope);
  else return false;
  return true;
}

/** The word that makes the block a touch: a G38.x or skip code, or an axis word while a G38.x is in force. */
function touchWord(
  read: ReadBlock,
  axes: readonly number[],
  scope: Scope,
): { code: TouchCode; word: Word } | null {
  const isSkip = (code: string) => scope.dialect === 'macro' && code === 'G31';
  const own = read.codes.find((c) => touchCodes.includes(c.code) || isSkip(c.code));
  if (own) return { code: own.code as TouchCode, word: own.word };
  const mode = onlyCode('motion', scope.state.modes.motion);
  const first = read.words.get(axisLetters[axes[0] ?? -1] ?? '')?.word;
  if (!mode || !touchCodes.includes(mode) || !first) return null;
  return read.codes.some((c) => c.code === 'G53') ? null : { code: mode as TouchCode, word: first };
}

/** A full circle in the centre format has no axis word; the macro family repeats a cycle for a new R alone. */
function movesWithoutAxes(read: ReadBlock, scope: Scope): boolean {
  const mode = onlyCode('motion', scope.state.modes.motion);
  if (mode === 'cycle') return scope.dialect === 'macro' && read.words.has('R');
  return (mode === 'G2' || mode === 'G3') && ['I', 'J', 'K'].some((letter) => read.words.has(letter));
}

function touch(code: TouchCode, word: Word, axes: number[], read: ReadBlock, scope: Scope): void {
  const { state, world } = scope;
  const inMachine = read.codes.some((c) => c.code === 'G53');
  if (inMachine) refuseMachineCoordinates(code, placeOf(word, scope), scope);
  const to = target(read, axes, scope);
  // What a control makes of both codes is its own matter.
  if (inMachine) for (const i of axes) to[i] = given(`machine:${scope.line}:${i}`, 'G53 with a touch');
  for (const i of axes) tellUse(read, i, scope);
  world.touch(
    {
      code,
      alarms: code === 'G38.2' || code === 'G38.4',
      away: code === 'G38.4' || code === 'G38.5',
      place: placeOf(word, scope),
      from: [...state.position],
      to,
      axes,
    },
    state,
  );
}

/** G53 goes with G0 and G1 alone (NISTIR 6556, 3.5.12); `code` is what is in force, null where that is not known. */
function refuseMachineCoordinates(code: string | null, place: Place, { dialect, world }: Scope): void {
  if (dialect === 'rs274ngc' && code !== null)
    world.fault('machine-coordinates-without-straight-move', place);
}

function plainMotion(read: ReadBlock, axes: number[], scope: Scope): void {
  const { state, world } = scope;
  const atFeed = scope.dialect === 'macro' && read.codes.some((c) => c.code === 'G53.2');
  const machineCoordinates = atFeed || read.codes.some((c) => c.code === 'G53');
  const from = [...state.position];
  for (const i of axes) tellUse(read, i, scope);
  const word = read.words.get(axisLetters[axes[0] ?? 0] ?? 'X')?.word ?? read.codes[0]?.word;
  const place = word ? placeOf(word, scope) : { line: scope.line, start: 0, end: 0 };
  const kind = machineCoordinates ? 'machine-coordinates' : kindOf(scope);
  const key = `${scope.line}`;
  const mode = onlyCode('motion', state.modes.motion);
  if (machineCoordinates && !atFeed && mode !== 'G0' && mode !== 'G1')
    refuseMachineCoordinates(mode, place, scope);
  const { frame } = state.rig;
  const cycle = kind === 'cycle' ? takeCycle(read, fromWork(frame, from, key), scope) : null;
  const to = machineCoordinates ? machineTarget(read, axes, scope) : target(read, axes, scope);
  const reached = cycle ? deepest(cycle, to, key, scope) : to;
  const block = { read, atFeed, kind, from, to: reached, place, scope, cycle };
  world.motion(
    { kind, place, from, to: reached, axes, machineCoordinates, legs: () => legsOf(block) },
    state,
  );
  if (kind === 'cycle') state.position = afterCycle(cycle, reached, key, scope);
  else state.position = to;
}

function target(read: ReadBlock, axes: readonly number[], scope: Scope): Value[] {
  const { frame } = scope.state.rig;
  const key = `${scope.line}`;
  const written = fromWork(frame, scope.state.position, `${key}:from`);
  return toWork(frame, writtenTarget(read, axes, written, scope), key);
}

function kindOf(scope: Scope): Motion['kind'] {
  const names = namesIn('motion', scope.state.modes.motion);
  if (names.some((n) => n === 'unset' || n === 'unknown' || touchCodes.includes(n))) return 'unknown';
  if (names.every((n) => n === 'G0')) return 'rapid';
  if (names.every((n) => n === 'G0' || n === 'G1')) return 'feed';
  if (names.every((n) => n === 'G2' || n === 'G3')) return 'arc';
  return names.every((n) => n === 'cycle') ? 'cycle' : 'unknown';
}

function tellUse(read: ReadBlock, axis: number, scope: Scope): void {
  const found = read.words.get(axisLetters[axis] ?? '');
  if (found) scope.world.used(found.value, 'motion', placeOf(found.word, scope), scope.state);
}

/** The bottom of the last hole, work coordinates. */
function deepest(cycle: Cycle, to: readonly Value[], key: string, scope: Scope): Value[] {
  return atHole(cycle, cycle.bottom, to, key, scope);
}

/** A canned cycle leaves the drilling axis at the level that G98 or G99 says (NISTIR 6556, 3.5.16, 3.5.20). */
function afterCycle(cycle: Cycle | null, reached: readonly Value[], key: string, scope: Scope): Value[] {
  if (cycle) return atHole(cycle, cycle.clear, reached, key, scope);
  return reached.map((v, i) => (i === 2 ? given(`cycle:${key}`, 'the level after a canned cycle') : v));
}

function atHole(cycle: Cycle, level: Value, otherwise: readonly Value[], key: string, scope: Scope): Value[] {
  const { frame } = scope.state.rig;
  const written = fromWork(frame, otherwise, `${key}:hole`);
  const { first, second, normal } = cycle.plane;
  const hole = cycle.holes?.at(-1);
  if (cycle.holes === null)
    written[first] = written[second] = given(`hole:${key}`, 'how many holes the cycle makes');
  else if (hole) [written[first], written[second]] = hole;
  if (cycle.holes === null || hole) written[normal] = level;
  return toWork(frame, written, key);
}
