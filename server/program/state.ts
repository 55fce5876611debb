import type { Place } from '../syntax/place.ts';
import { feedsByPath, type KnownFeed, sameFeeds } from './feedsByPath.ts';
import { equalModalCalls, joinModalCalls, type ModalCalls } from './modalCalls.ts';
import { allModes, type ModeGroup, type ModeMasks, modeGroups, unknown, unset } from './modes.ts';
import { equalRigs, joinRigs, type Rig, startRig } from './rig.ts';
import { isTestedEarlier, testedEarlier } from './testedEarlier.ts';
import { given, lookedAt, same, touchesOf, type Value } from './value.ts';

/** x y z a b c u v w: the order of every array of coordinates. */
export const axisLetters = ['X', 'Y', 'Z', 'A', 'B', 'C', 'U', 'V', 'W'] as const;

/** Radius and angle of a polar position in rs274ngc; `polarWords.ts` makes X and Y of them. */
export const polarLetters = ['@', '^'] as const;

/** Whether a word with this letter says where an axis goes. */
export function isAxisWord(letter: string): boolean {
  return ([...axisLetters, ...polarLetters] as readonly string[]).includes(letter);
}

export interface Feed {
  /** On some path nothing set it since the program began. */
  readonly unset: boolean;
  /** mm/min; a traced value where it is not a known number. */
  readonly value: Value;
  readonly place: Place | null;
  /** The known feeds that hold on some path, where the value is not one number. */
  readonly byPath: readonly KnownFeed[];
}

export interface SavedModes {
  readonly modes: ModeMasks;
  readonly feed: Feed;
  readonly speed: Value;
  /** M73: they come back when the routine returns. */
  readonly restoreOnReturn: boolean;
}

/** What the interpreter knows between two blocks. Positions are in work coordinates and program units, degrees for a b c. */
export interface State {
  modes: Record<ModeGroup, number>;
  feed: Feed;
  position: Value[];
  /** Latched coordinates of the last touch, mm and degrees; null before any touch. */
  latched: (Value | null)[];
  /** 1 or 0 after a touch. */
  success: Value;
  /** Of the routine that runs; replaced at a call that has its own. Shared between copies: write by `setParameter`. */
  locals: ReadonlyMap<string, Value>;
  globals: ReadonlyMap<string, Value>;
  /** Which of the two maps no copy shares, so that a write needs no new one. */
  owned: { locals: boolean; globals: boolean };
  /** What a numbered local holds that nothing set: 0 in a called rs274ngc subroutine, empty in a macro; null: an input. */
  unsetLocal: Value | null;
  /** Modes, F and S kept by M70 or M73 in this routine. */
  saved: SavedModes | null;
  /** What the last call gave back. */
  returned: Value;
  /** Macros called after each motion; null: none. Replaced as a whole. */
  modal: ModalCalls | null;
  /** Replaced as a whole. */
  rig: Rig;
}

/** The state at the start of a main program, or at the entry of a routine of which nothing is known. */
export function startState(entry: 'program' | 'open-subroutine'): State {
  return {
    modes: allModes(entry === 'program' ? unset : unknown),
    feed: { unset: entry === 'program', value: given('feed', 'no feed was set'), place: null, byPath: [] },
    position: axisLetters.map((letter) => given(`start:${letter}`, 'where the axis stands at the start')),
    latched: axisLetters.map(() => null),
    success: given('success', 'no touch was made'),
    locals: new Map(),
    globals: new Map(),
    owned: { locals: false, globals: false },
    unsetLocal: null,
    saved: null,
    returned: given('returned', 'nothing was returned'),
    modal: null,
    rig: startRig(),
  };
}

/** A copy to go on from; parameters are shared until one of the two writes. */
export function copy(state: State): State {
  state.owned = { locals: false, globals: false };
  return {
    ...state,
    modes: { ...state.modes },
    position: [...state.position],
    latched: [...state.latched],
    owned: { locals: false, globals: false },
  };
}

export function setParameter(state: State, scope: 'locals' | 'globals', name: string, value: Value): void {
  if (!state.owned[scope]) {
    state[scope] = new Map(state[scope]);
    state.owned[scope] = true;
  }
  (state[scope] as Map<string, Value>).set(name, value);
}

/** The value of a parameter that the program did not set. */
export function input(name: string): Value {
  const reason = name.includes(':') ? 'what the machine holds' : `#${name} is set outside this program`;
  return given(`input:${name}`, reason);
}

/**
 * Both values on one name where paths meet: kept if equal, else known only by the touches that it rests on; `parted` are
 * touches of which the two paths tell different things, as then does what differs on them.
 */
export function joinValues(
  a: Value,
  b: Value,
  node: string,
  name: string,
  parted: readonly number[] = none,
): Value {
  if (same(a, b)) return a;
  const held = [...touchesOf(a), ...touchesOf(b)];
  const tells = [...lookedAt(a), ...lookedAt(b), ...parted];
  const tested = held.length > 0 && isTestedEarlier(a) && isTestedEarlier(b) ? testedEarlier : '';
  return given(`${tested}join:${node}:${name}`, 'paths that differ meet here', held, tells);
}

const none: readonly number[] = [];

/** The state that holds whichever path was taken; `node` names the meeting point, `parted` as in `joinValues`. */
export function join(a: State, b: State, node: string, parted: readonly number[] = none): State {
  return {
    modes: Object.fromEntries(modeGroups.map((g) => [g, a.modes[g] | b.modes[g]])) as Record<
      ModeGroup,
      number
    >,
    feed: joinFeeds(a.feed, b.feed, node),
    position: a.position.map((v, i) => joinValues(v, b.position[i] ?? v, node, `position${i}`)),
    latched: a.latched.map((v, i) => {
      const w = b.latched[i] ?? null;
      return v === null ? w : w === null ? v : joinValues(v, w, node, `latched${i}`);
    }),
    success: joinValues(a.success, b.success, node, 'success'),
    locals: joinMaps(a.locals, b.locals, node, parted),
    globals: joinMaps(a.globals, b.globals, node, parted),
    owned: { locals: false, globals: false },
    unsetLocal: sameOrNull(a.unsetLocal, b.unsetLocal) ? a.unsetLocal : null,
    saved: sameSaved(a.saved, b.saved) ? a.saved : null,
    returned: joinValues(a.returned, b.returned, node, 'returned', parted),
    modal: joinModalCalls(a.modal, b.modal, (v, w, name) => joinValues(v, w, node, name)),
    rig: joinRigs(a.rig, b.rig, (v, w, name) => joinValues(v, w, node, name)),
  };
}

function joinFeeds(a: Feed, b: Feed, node: string): Feed {
  const value = joinValues(a.value, b.value, node, 'feed');
  return {
    unset: a.unset || b.unset,
    value,
    place: samePlace(a.place, b.place) ? a.place : null,
    byPath: typeof value === 'number' ? [] : feedsByPath(a, b),
  };
}

export function equal(a: State, b: State): boolean {
  return (
    modeGroups.every((g) => a.modes[g] === b.modes[g]) &&
    a.feed.unset === b.feed.unset &&
    same(a.feed.value, b.feed.value) &&
    sameFeeds(a.feed.byPath, b.feed.byPath) &&
    a.position.every((v, i) => same(v, b.position[i] ?? Number.NaN)) &&
    a.latched.every((v, i) => sameOrNull(v, b.latched[i] ?? null)) &&
    same(a.success, b.success) &&
    equalMaps(a.locals, b.locals) &&
    equalMaps(a.globals, b.globals) &&
    sameSaved(a.saved, b.saved) &&
    same(a.returned, b.returned) &&
    equalModalCalls(a.modal, b.modal) &&
    equalRigs(a.rig, b.rig)
  );
}

function sameOrNull(a: Value | null, b: Value | null): boolean {
  return a === null || b === null ? a === b : same(a, b);
}

function samePlace(a: Place | null, b: Place | null): boolean {
  return a === b || (a !== null && b !== null && a.line === b.line && a.start === b.start);
}

function sameSaved(a: State['saved'], b: State['saved']): boolean {
  if (a === null || b === null) return a === b;
  if (a === b) return true;
  return (
    a.restoreOnReturn === b.restoreOnReturn &&
    modeGroups.every((g) => a.modes[g] === b.modes[g]) &&
    a.feed.unset === b.feed.unset &&
    same(a.feed.value, b.feed.value) &&
    same(a.speed, b.speed)
  );
}

type Parameters = ReadonlyMap<string, Value>;

function joinMaps(a: Parameters, b: Parameters, node: string, parted: readonly number[]): Parameters {
  if (a === b) return a;
  const joined = new Map<string, Value>();
  for (const [name, value] of a) {
    const other = b.get(name) ?? input(name);
    joined.set(name, same(value, other) ? value : joinValues(value, other, node, `#${name}`, parted));
  }
  for (const [name, value] of b)
    if (!a.has(name)) joined.set(name, joinValues(value, input(name), node, `#${name}`, parted));
  return joined;
}

function equalMaps(a: Parameters, b: Parameters): boolean {
  if (a === b) return true;
  if (a.size !== b.size) return false;
  for (const [name, value] of a) {
    const other = b.get(name);
    if (other === undefined || !same(value, other)) return false;
  }
  return true;
}
