import { given, same, type Value } from './value.ts';

/** Where the words of a canned cycle are kept from block to block. */
export interface CycleData {
  readonly code: string;
  /** Level of the drilling axis where the series of cycles began, work coordinates. */
  readonly initial: Value;
  /** R, the drilling axis, Q, P, I, J, K as written. */
  readonly words: ReadonlyMap<string, Value>;
}

/** What stands between the coordinates that a block writes and the work coordinates. */
export interface Frame {
  /** G16: the first axis of the plane is a radius, the second an angle in degrees. */
  readonly polar: boolean;
  /** G51 and G51.1: factor of X, Y, Z about a centre; a mirrored axis has a negative one. */
  readonly factors: readonly [Value, Value, Value];
  readonly centre: readonly [Value, Value, Value];
  /** G68: degrees about a point of the plane that was in force (indices of its axes). */
  readonly rotation: {
    readonly axes: readonly [number, number];
    readonly centre: readonly [Value, Value];
    readonly degrees: Value;
  } | null;
}

/** Beside modes, feed and position: tools, their offset, the spindle's speed, the frame of coordinates, cycle data. */
export interface Rig {
  /** S as written. */
  readonly speed: Value;
  /** Where the spindle was last oriented to, degrees; an unknown of its own once it has run since. */
  readonly spindleAngle: Value;
  readonly loadedTool: Value;
  readonly selectedTool: Value;
  /** Known tools that may be in the spindle, one of each path. */
  readonly tools: readonly number[];
  /** Known tools whose length may be in force. */
  readonly lengthsOf: readonly number[];
  /** Tool offset in force by axis, mm; degrees for A B C. */
  readonly toolOffset: readonly Value[];
  /** P of G54.1. */
  readonly extendedOffset: Value;
  /** F as written under G93 or G95. */
  readonly otherFeed: Value;
  readonly frame: Frame | 'unknown' | null;
  readonly cycle: CycleData | 'unknown' | null;
}

/** Names the angle that a program finds the spindle at. */
export const foundAngle = 'spindle-angle';

/** At the start of a program, where the machine has what the last one left. */
export function startRig(): Rig {
  return {
    speed: given('speed', 'no speed was set'),
    spindleAngle: given(foundAngle, 'where the spindle stood at the start'),
    loadedTool: given('tool', 'which tool the spindle holds'),
    selectedTool: given('selected-tool', 'which tool is selected'),
    tools: [],
    lengthsOf: [],
    toolOffset: Array.from({ length: 9 }, (_, i) =>
      i === 2 ? given('tool-offset', 'the tool length offset at the start') : 0,
    ),
    extendedOffset: given('extended-offset', 'which work offset is in force'),
    otherFeed: given('other-feed', 'no feed was set in this mode'),
    frame: null,
    cycle: null,
  };
}

/** After something that may have changed all of it. */
export function unknownRig(key: string, reason: string): Rig {
  const value = (name: string) => given(`${key}:${name}`, reason);
  return {
    speed: value('speed'),
    spindleAngle: given(foundAngle, reason),
    loadedTool: value('tool'),
    selectedTool: value('selected'),
    tools: [],
    lengthsOf: [],
    toolOffset: Array.from({ length: 9 }, (_, i) => value(`length${i}`)),
    extendedOffset: value('offset'),
    otherFeed: value('feed'),
    frame: 'unknown',
    cycle: 'unknown',
  };
}

/** What holds whichever path was taken; `joined` joins two values under a name. */
export function joinRigs(a: Rig, b: Rig, joined: (a: Value, b: Value, name: string) => Value): Rig {
  if (a === b) return a;
  return {
    speed: joined(a.speed, b.speed, 'speed'),
    spindleAngle: joined(a.spindleAngle, b.spindleAngle, 'spindle-angle'),
    loadedTool: joined(a.loadedTool, b.loadedTool, 'tool'),
    selectedTool: joined(a.selectedTool, b.selectedTool, 'selected-tool'),
    tools: union(a.tools, b.tools),
    lengthsOf: union(a.lengthsOf, b.lengthsOf),
    toolOffset: a.toolOffset.map((v, i) => joined(v, b.toolOffset[i] ?? v, `tool-offset${i}`)),
    extendedOffset: joined(a.extendedOffset, b.extendedOffset, 'extended-offset'),
    otherFeed: joined(a.otherFeed, b.otherFeed, 'other-feed'),
    frame: sameFrames(a.frame, b.frame) ? a.frame : 'unknown',
    cycle: sameCycles(a.cycle, b.cycle) ? a.cycle : 'unknown',
  };
}

export function equalRigs(a: Rig, b: Rig): boolean {
  return (
    a === b ||
    (same(a.speed, b.speed) &&
      same(a.spindleAngle, b.spindleAngle) &&
      same(a.loadedTool, b.loadedTool) &&
      same(a.selectedTool, b.selectedTool) &&
      a.tools.join() === b.tools.join() &&
      a.lengthsOf.join() === b.lengthsOf.join() &&
      a.toolOffset.every((v, i) => same(v, b.toolOffset[i] ?? Number.NaN)) &&
      same(a.extendedOffset, b.extendedOffset) &&
      same(a.otherFeed, b.otherFeed) &&
      sameFrames(a.frame, b.frame) &&
      sameCycles(a.cycle, b.cycle))
  );
}

/** Of a path that changes many tools the first ones are kept: fewer findings, never a wrong one. */
const mostTools = 32;

function union(a: readonly number[], b: readonly number[]): readonly number[] {
  if (a === b || b.every((tool) => a.includes(tool))) return a;
  return [...new Set([...a, ...b])].sort((x, y) => x - y).slice(0, mostTools);
}

function sameFrames(a: Rig['frame'], b: Rig['frame']): boolean {
  if (a === b) return true;
  if (a === null || b === null || a === 'unknown' || b === 'unknown') return false;
  if (a.polar !== b.polar || !allSame(a.factors, b.factors) || !allSame(a.centre, b.centre)) return false;
  const [r, s] = [a.rotation, b.rotation];
  if (r === null || s === null) return r === s;
  return r.axes.join() === s.axes.join() && allSame(r.centre, s.centre) && same(r.degrees, s.degrees);
}

function sameCycles(a: Rig['cycle'], b: Rig['cycle']): boolean {
  if (a === b) return true;
  if (a === null || b === null || a === 'unknown' || b === 'unknown') return false;
  if (a.code !== b.code || a.words.size !== b.words.size || !same(a.initial, b.initial)) return false;
  return [...a.words].every(([letter, value]) => {
    const other = b.words.get(letter);
    return other !== undefined && same(value, other);
  });
}

function allSame(a: readonly Value[], b: readonly Value[]): boolean {
  return a.every((v, i) => same(v, b[i] ?? Number.NaN));
}
