import { choices } from './choices.ts';
import { placeOf, type Scope } from './evaluate.ts';
import { namesIn, onlyCode } from './modes.ts';
import { type PlaneAxes, planeAxes } from './plane.ts';
import type { ReadBlock } from './readBlock.ts';
import type { CycleData } from './rig.ts';
import { axisLetters, type State } from './state.ts';
import { add, given, isNumber, scale, subtract, type Value } from './value.ts';

/** A canned cycle as one block asks for it, written coordinates and program units (NISTIR 6556, 3.5.16). */
export interface Cycle {
  readonly code: string;
  readonly plane: PlaneAxes;
  readonly retract: Value;
  readonly bottom: Value;
  /** Level that each hole is left at: of G98 and G99. */
  readonly clear: Value;
  /** First two axes of the plane, hole after hole; null where how many is not known. */
  readonly holes: readonly (readonly [Value, Value])[] | null;
  readonly words: ReadonlyMap<string, Value>;
}

const keptLetters = ['R', 'Q', 'P', 'I', 'J', 'K'];
const mostRepeats = 10_000;

/**
 * The cycle of a block with what earlier ones of its series left, which it adds to; null, with a fault told, where R or
 * the bottom is missing or the plane is not known.
 */
export function takeCycle(read: ReadBlock, position: readonly Value[], scope: Scope): Cycle | null {
  const { state } = scope;
  const plane = planeAxes(state.modes.plane);
  const data = cycleData(read, plane, position, scope);
  if (plane === null || data === null) return null;
  state.rig = { ...state.rig, cycle: data };
  const r = data.words.get('R');
  const z = data.words.get(axisLetters[plane.normal] ?? '');
  if (r === undefined || z === undefined) {
    const word = read.codes[0]?.word ?? [...read.words.values()][0]?.word;
    if (word)
      scope.world.fault(r === undefined ? 'cycle-without-r' : 'cycle-without-bottom', placeOf(word, scope));
    return null;
  }
  const incremental = isIncremental(state);
  const here = position[plane.normal] ?? 0;
  const retract = incremental ? add(here, r) : r;
  const bottom = incremental ? add(retract, z) : z;
  const clear = clearLevel(data, retract, scope);
  return {
    code: data.code,
    plane,
    retract,
    bottom,
    clear,
    holes: holesOf(read, plane, position, scope),
    words: data.words,
  };
}

function isIncremental(state: State): boolean {
  return namesIn('distance', state.modes.distance).every((name) => name === 'G91');
}

/** What is kept of the words, with those of this block; null where the code in force is not known. */
function cycleData(
  read: ReadBlock,
  plane: PlaneAxes | null,
  position: readonly Value[],
  scope: Scope,
): CycleData | null {
  const before = scope.state.rig.cycle;
  const own = read.cycle;
  const earlier = before === 'unknown' ? null : before;
  const code = own ?? earlier?.code;
  if (code === undefined || plane === null) return null;
  const keepsAll = choices[scope.dialect].cycleWords === 'until-cancelled' || earlier?.code === code;
  const words = new Map<string, Value>();
  for (const [letter, value] of earlier?.words ?? [])
    if (keepsAll || letter === 'R') words.set(letter, value);
  const normal = axisLetters[plane.normal] ?? '';
  for (const letter of [...keptLetters, normal]) {
    const found = read.words.get(letter);
    if (found && !repeats(letter, code, scope)) words.set(letter, found.value);
  }
  return { code, initial: earlier?.initial ?? position[plane.normal] ?? 0, words };
}

/** K tells how often in the macro family, but where it is a part of the cycle. */
function repeats(letter: string, code: string, scope: Scope): boolean {
  return choices[scope.dialect].cycleRepeats.includes(letter) && code !== 'G76' && code !== 'G87';
}

/** G99: the R level; G98: where the series began, but not below R (3.5.16). */
function clearLevel(data: CycleData, retract: Value, scope: Scope): Value {
  const mode = onlyCode('returnLevel', scope.state.modes.returnLevel);
  const backToStart = data.code === 'G87' && scope.dialect === 'macro';
  if (mode === 'G99' && !backToStart) return retract;
  if (mode === null && scope.state.modes.returnLevel & 2) return unknownLevel(scope);
  const above = subtract(data.initial, retract);
  if (!isNumber(above)) return unknownLevel(scope);
  return above >= 0 || backToStart ? data.initial : retract;
}

function unknownLevel(scope: Scope): Value {
  return given(`cycle:${scope.line}`, 'the level after a canned cycle');
}

/** Under G91 each repeat goes on by the same step (3.5.16). */
function holesOf(
  read: ReadBlock,
  plane: PlaneAxes,
  position: readonly Value[],
  scope: Scope,
): readonly (readonly [Value, Value])[] | null {
  const letters = choices[scope.dialect].cycleRepeats;
  const count = letters.map((l) => read.words.get(l)?.value).find((v) => v !== undefined) ?? 1;
  if (!isNumber(count) || count > mostRepeats) return null;
  const incremental = isIncremental(scope.state);
  const at = (axis: number, k: number): Value => {
    const word = read.words.get(axisLetters[axis] ?? '')?.value;
    const from = position[axis] ?? 0;
    if (word === undefined) return from;
    return incremental ? add(from, scale(word, k)) : word;
  };
  return Array.from({ length: Math.max(0, Math.round(count)) }, (_, k) => [
    at(plane.first, k + 1),
    at(plane.second, k + 1),
  ]);
}
