import {
  copy as copyState,
  equal,
  join as joinStates,
  joinValues,
  type State,
  setParameter,
  startState,
} from '../program/state.ts';
import { testedEarlier } from '../program/testedEarlier.ts';
import { given, lookedAt, same, touchesOf, type Value } from '../program/value.ts';
import type { Place } from '../syntax/place.ts';
import { equalLatches, joinLatches, type LastTouch } from './latch.ts';
import {
  joinTest,
  joinTold,
  type LastTest,
  partedTouches,
  sameTest,
  sameTold,
  type Told,
} from './toldByTests.ts';

/** A touch that the path has made, as it was made last. */
export interface Made {
  /** Something looked at whether it met the surface, or it alarms by itself. */
  readonly tested: boolean;
  /** A test on the path has shown that it met the surface. */
  readonly met: boolean;
  /** What its last test has told, on each of the paths that met since; nothing where that test tells no side. */
  readonly told: readonly Told[];
  /** While nothing has tested it: a test that should have, and saw an older result. */
  readonly staleTest: LastTest | null;
  /** Arithmetic on its result while nothing had tested it. */
  readonly arithmetic: Place | null;
  readonly from: readonly Value[];
  readonly to: readonly Value[];
  /** Unit vector towards the surface; null where it is not known, or differs by path. */
  readonly direction: readonly [number, number, number] | null;
  /** The one linear axis that it moves along. */
  readonly axis: number | null;
}

/**
 * Whether the tip rests on what a touch met: a test has shown it; it may; or it does on one side of the test of a status,
 * which does not say which.
 */
export type Contact = 'met' | 'maybe' | 'if-true' | 'if-false';

/** What flows along a path: the interpreter's state, and the bookkeeping about touches. */
export interface Flowing {
  readonly state: State;
  /** Touches after which the tip may still rest on the surface. */
  readonly contact: ReadonlyMap<number, Contact>;
  readonly made: ReadonlyMap<number, Made>;
  /** The test that the next touch the same way leaves behind. */
  readonly lastTest: LastTest | null;
  readonly latch: LastTouch;
}

/** The mutable form, owned by whoever runs a node. */
export interface Running {
  state: State;
  contact: ReadonlyMap<number, Contact>;
  /** Shared between copies: write by `setMade`. */
  made: ReadonlyMap<number, Made>;
  /** Replaced as a whole. */
  latch: LastTouch;
  ownsMade: boolean;
  lastTest: LastTest | null;
}

export function startFlow(entry: 'program' | 'open-subroutine'): Running {
  return {
    state: startState(entry),
    contact: new Map(),
    made: new Map(),
    latch: 'none',
    ownsMade: false,
    lastTest: null,
  };
}

export function copyFlow(flow: Flowing): Running {
  const { state, contact, made, latch, lastTest } = flow;
  return { state: copyState(state), contact, made, latch, ownsMade: false, lastTest };
}

/** Writes down a touch as made, or what became of it. */
export function setMade(flow: Running, touch: number, made: Made): void {
  if (!flow.ownsMade) {
    flow.made = new Map(flow.made);
    flow.ownsMade = true;
  }
  (flow.made as Map<number, Made>).set(touch, made);
}

export function joinFlows(a: Flowing, b: Flowing, node: string): Running {
  return {
    state: joinStates(a.state, b.state, node, partedTouches(a.made, b.made)),
    contact: joinContact(a.contact, b.contact),
    made: joinAllMade(a.made, b.made, node),
    latch: joinLatches(a.latch, b.latch),
    ownsMade: false,
    lastTest: joinTest(a.lastTest, b.lastTest),
  };
}

/** What is so on some path counts: a departure needs no more than one. */
function joinContact(a: Flowing['contact'], b: Flowing['contact']): Map<number, Contact> {
  const joined = new Map(a);
  for (const [touch, there] of b) {
    const here = joined.get(touch) ?? there;
    joined.set(touch, here === 'met' || there === 'met' ? 'met' : here === there ? here : 'maybe');
  }
  return joined;
}

function joinAllMade(
  a: ReadonlyMap<number, Made>,
  b: ReadonlyMap<number, Made>,
  node: string,
): ReadonlyMap<number, Made> {
  if (a === b) return a;
  const made = new Map(a);
  for (const [touch, there] of b) {
    const here = made.get(touch);
    if (here !== there) made.set(touch, here ? joinMade(here, there, `${node}:${touch}`) : there);
  }
  return made;
}

export function equalFlows(a: Flowing, b: Flowing): boolean {
  if (a.contact.size !== b.contact.size || a.made.size !== b.made.size) return false;
  if (!sameTest(a.lastTest, b.lastTest)) return false;
  if (!equalLatches(a.latch, b.latch)) return false;
  if (a.made === b.made && a.contact === b.contact) return equal(a.state, b.state);
  for (const [touch, here] of a.contact) if (b.contact.get(touch) !== here) return false;
  for (const [touch, here] of a.made) {
    const there = b.made.get(touch);
    if (!there || (here !== there && !equalMade(here, there))) return false;
  }
  return equal(a.state, b.state);
}

function joinMade(a: Made, b: Made, node: string): Made {
  return {
    tested: a.tested && b.tested,
    met: a.met && b.met,
    told: joinTold(a.told, b.told),
    staleTest: joinTest(a.staleTest, b.staleTest),
    arithmetic: a.arithmetic ?? b.arithmetic,
    from: a.from.map((v, i) => joinValues(v, b.from[i] ?? v, node, `from${i}`)),
    to: a.to.map((v, i) => joinValues(v, b.to[i] ?? v, node, `to${i}`)),
    direction: sameDirection(a.direction, b.direction) ? a.direction : null,
    axis: a.axis === b.axis ? a.axis : null,
  };
}

function sameDirection(a: Made['direction'], b: Made['direction']): boolean {
  return a === b || (a !== null && b !== null && a.every((n, i) => n === b[i]));
}

function equalMade(a: Made, b: Made): boolean {
  return (
    a.tested === b.tested &&
    a.met === b.met &&
    sameTold(a.told, b.told) &&
    sameTest(a.staleTest, b.staleTest) &&
    a.arithmetic?.line === b.arithmetic?.line &&
    a.axis === b.axis &&
    sameDirection(a.direction, b.direction) &&
    a.from.every((v, i) => same(v, b.from[i] ?? Number.NaN)) &&
    a.to.every((v, i) => same(v, b.to[i] ?? Number.NaN))
  );
}

/** A touch made again in a loop: what earlier passes latched is no longer this touch's coordinate, but as tested as it was. */
export function forgetEarlier(state: State, touch: number, tested: boolean): void {
  const key = `${tested ? testedEarlier : ''}earlier`;
  const renamed = (v: Value): Value => {
    const touches = touchesOf(v);
    return touches.has(touch) ? given(key, 'an earlier pass of a loop', [...touches]) : v;
  };
  state.position = state.position.map(renamed);
  for (const scope of ['locals', 'globals'] as const)
    for (const [name, value] of [...state[scope]]) {
      const other = renamed(value);
      if (other !== value) setParameter(state, scope, name, other);
    }
}

/** Touches that a path keeps in mind beside those that its position or the tip's contact rests on. */
const mostKept = 128;
/** To look through all values of a state takes long. */
const madeBetweenLooks = 16;

/**
 * Drops the touches that nothing on the path can come back to: the tip has left them, and no value of the state rests
 * on them or tells of them. Of a long path that leaves many such values behind, the oldest touches are dropped too: what
 * they might still have been tested for is then taken as tested.
 */
export function forgetSettled(flow: Running): void {
  if (flow.made.size === 0 || flow.made.size % madeBetweenLooks !== 0) return;
  const standing = new Set(flow.state.position.flatMap((value) => [...touchesOf(value)]));
  const held = heldTouches(flow);
  const left = [...flow.made.keys()].filter((t) => held.has(t));
  const settled = left.filter((t) => !flow.contact.has(t) && !standing.has(t));
  const dropped = left.length > 2 * mostKept ? new Set(settled.slice(0, -mostKept)) : none;
  if (left.length - dropped.size === flow.made.size) return;
  flow.made = new Map([...flow.made].filter(([t]) => held.has(t) && !dropped.has(t)));
  flow.ownsMade = true;
}

const none: ReadonlySet<number> = new Set();

function heldTouches({ state, contact, made }: Flowing): Set<number> {
  const held = new Set(contact.keys());
  const hold = (value: Value | null) => {
    if (value !== null && typeof value !== 'number') for (const touch of lookedAt(value)) held.add(touch);
  };
  for (const list of [state.position, state.latched, state.globals.values(), state.locals.values()])
    for (const value of list) hold(value);
  for (const value of [state.success, state.returned, state.feed.value]) hold(value);
  for (const [touch, { tested, arithmetic }] of made) if (!tested && arithmetic !== null) held.add(touch);
  // Where a touch ended may be told by where another one did.
  for (const touch of held) for (const value of made.get(touch)?.to ?? []) hold(value);
  return held;
}
