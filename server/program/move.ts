import type { Word } from '../syntax/tree.ts';
import { placeOf, type Scope } from './evaluate.ts';
import { namesIn, onlyCode } from './modes.ts';
import type { ReadBlock } from './readBlock.ts';
import { axisLetters } from './state.ts';
import { add, given, type Value } from './value.ts';
import type { Motion, TouchCode } from './world.ts';

const touchCodes: readonly string[] = ['G38.2', 'G38.3', 'G38.4', 'G38.5'];

/** The motion of a block, if its axis words make one: a touch, a straight move, an arc, a canned cycle. */
export function moveBlock(read: ReadBlock, scope: Scope): void {
  const axes = axisLetters.flatMap((letter, i) => (read.words.has(letter) ? [i] : []));
  const probing = touchWord(read, axes, scope);
  if (probing) touch(probing.code, probing.word, axes, read, scope);
  else if (axes.length > 0 || arcWithoutAxes(read, scope)) plainMotion(read, axes, scope);
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

/** A full circle in the centre format has no axis word. */
function arcWithoutAxes(read: ReadBlock, scope: Scope): boolean {
  const mode = onlyCode('motion', scope.state.modes.motion);
  return (mode === 'G2' || mode === 'G3') && ['I', 'J', 'K'].some((letter) => read.words.has(letter));
}

function touch(code: TouchCode, word: Word, axes: number[], read: ReadBlock, scope: Scope): void {
  const { state, world } = scope;
  const to = target(read, axes, scope, false);
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

function plainMotion(read: ReadBlock, axes: number[], scope: Scope): void {
  const { state, world } = scope;
  const machine = read.codes.find((c) => c.code === 'G53');
  const to = target(read, axes, scope, machine !== undefined);
  for (const i of axes) tellUse(read, i, scope);
  const word = read.words.get(axisLetters[axes[0] ?? 0] ?? 'X')?.word ?? read.codes[0]?.word;
  const place = word ? placeOf(word, scope) : { line: scope.line, start: 0, end: 0 };
  const kind = machine ? 'machine-coordinates' : kindOf(scope);
  world.motion({ kind, place, from: [...state.position], to, axes }, state);
  state.position = kind === 'cycle' ? afterCycle(read, to, scope) : to;
}

function kindOf(scope: Scope): Motion['kind'] {
  const names = namesIn('motion', scope.state.modes.motion);
  if (names.some((n) => n === 'unset' || n === 'unknown' || touchCodes.includes(n))) return 'unknown';
  if (names.every((n) => n === 'G0')) return 'rapid';
  if (names.every((n) => n === 'G0' || n === 'G1')) return 'feed';
  if (names.every((n) => n === 'G2' || n === 'G3')) return 'arc';
  return names.every((n) => n === 'cycle') ? 'cycle' : 'unknown';
}

/** Where the block's axis words lead, in work coordinates (NISTIR 6556, 3.5.17: G90 and G91). */
function target(read: ReadBlock, axes: readonly number[], scope: Scope, machine: boolean): Value[] {
  const { state } = scope;
  const names = namesIn('distance', state.modes.distance);
  // Nothing set: G90, as after M2 (NISTIR 6556, 3.6.1); `mode-assumed` says that it was relied on.
  const absolute = names.every((n) => n === 'G90' || n === 'unset');
  const incremental = names.every((n) => n === 'G91');
  return state.position.map((from, i) => {
    const value = axes.includes(i) ? read.words.get(axisLetters[i] ?? '')?.value : undefined;
    if (value === undefined) return from;
    if (machine) return given(`machine:${scope.line}:${i}`, 'a machine position');
    if (absolute) return value;
    if (incremental) return add(from, value);
    return given(`distance:${scope.line}:${i}`, 'absolute or incremental is not known here');
  });
}

function tellUse(read: ReadBlock, axis: number, scope: Scope): void {
  const found = read.words.get(axisLetters[axis] ?? '');
  if (found) scope.world.used(found.value, 'motion', placeOf(found.word, scope), scope.state);
}

/** A canned cycle leaves the drilling axis at the retract level or where it started (NISTIR 6556, 3.5.20). */
function afterCycle(read: ReadBlock, to: Value[], scope: Scope): Value[] {
  const after = [...to];
  const r = read.words.get('R')?.value;
  const backToR = read.codes.some((c) => c.code === 'G99') && typeof r === 'number';
  after[2] = backToR ? r : given(`cycle:${scope.line}`, 'the level after a canned cycle');
  return after;
}
