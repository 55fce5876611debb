import type { Place } from '../syntax/place.ts';
import { type ArcGeometry, arcGeometry } from './arc.ts';
import { choices } from './choices.ts';
import type { Cycle } from './cycle.ts';
import { cycleLegs } from './cycleLegs.ts';
import type { Scope } from './evaluate.ts';
import { fromWork, mirrored, toWork } from './frame.ts';
import { onlyCode } from './modes.ts';
import { unitScale } from './parameters.ts';
import { type PlaneAxes, planeAxes } from './plane.ts';
import type { ReadBlock } from './readBlock.ts';
import { isNumber, type Value } from './value.ts';
import type { Leg, Motion } from './world.ts';

/** What a block's motion is made from. */
export interface MovingBlock {
  readonly read: ReadBlock;
  /** Machine coordinates at feed, whatever is in force. */
  readonly atFeed: boolean;
  readonly kind: Motion['kind'];
  readonly from: readonly Value[];
  readonly to: readonly Value[];
  readonly place: Place;
  readonly scope: Scope;
  readonly cycle: Cycle | null;
}

/** The motion piece by piece on plain numbers; null where it can't be told. An arc that is none is told as a fault. */
export function legsOf(block: MovingBlock): readonly Leg[] | null {
  const from = numbers(block.from);
  const to = numbers(block.to);
  if (from === null || to === null) return null;
  switch (block.kind) {
    case 'rapid':
      return [{ kind: 'rapid', to }];
    case 'feed':
      return [{ kind: 'feed', to, feed: feedFor(distance(from, to), block.scope) }];
    case 'machine-coordinates':
      return block.atFeed || onlyCode('motion', block.scope.state.modes.motion) === 'G1'
        ? [{ kind: 'feed', to, feed: feedFor(distance(from, to), block.scope) }]
        : [{ kind: 'rapid', to }];
    case 'arc':
      return arcLegs(block, from, to);
    case 'cycle':
      return block.cycle ? legsOfCycle(block, block.cycle) : null;
    default:
      return null;
  }
}

/** Feed of a move of `length` program units, mm/min; null where none is known. */
function feedFor(length: number, { state, world }: Scope): number | null {
  const perMm = unitScale(state, world);
  const mode = onlyCode('feedMode', state.modes.feedMode);
  if (mode === null || mode === 'G94') return isNumber(state.feed.value) ? state.feed.value : null;
  const { otherFeed, speed } = state.rig;
  if (!isNumber(otherFeed)) return null;
  // G93: F is one over the minutes that the block takes (NISTIR 6556, 3.5.19).
  if (mode === 'G93') return (length / perMm) * otherFeed;
  return isNumber(speed) ? (otherFeed / perMm) * speed : null;
}

function arcLegs(block: MovingBlock, from: readonly number[], to: readonly number[]): readonly Leg[] | null {
  const { scope } = block;
  const { frame } = scope.state.rig;
  const plane = planeAxes(scope.state.modes.plane);
  const start = numbers(fromWork(frame, from, 'arc'));
  const end = numbers(fromWork(frame, to, 'arc'));
  const words = plane && start ? arcWords(block, plane, start) : null;
  if (plane === null || start === null || end === null || words === null) return null;
  const tolerance = choices[scope.dialect].arcTolerance[unitOf(scope)];
  const at = (point: readonly number[]) => [point[plane.first] ?? 0, point[plane.second] ?? 0] as const;
  const arc = arcGeometry({ ...words, from: at(start), to: at(end) }, tolerance);
  if (typeof arc === 'string') {
    scope.world.fault(arc, block.place);
    return null;
  }
  const centre = centreInWork(arc, plane, start, scope);
  if (centre === null) return null;
  const radius = Math.hypot((from[plane.first] ?? 0) - centre[0], (from[plane.second] ?? 0) - centre[1]);
  const sweep = mirrored(frame, [plane.first, plane.second]) ? -arc.sweep : arc.sweep;
  const rise = distance(from, to, [plane.first, plane.second]);
  const feed = feedFor(Math.hypot(radius * sweep, rise), scope);
  return [{ kind: 'arc', to, feed, plane: [plane.first, plane.second], centre, radius, sweep }];
}

/** R, or the centre words: distances from the start (G91.1, NISTIR 6556, 3.5.3.2) or positions (G90.1). */
function arcWords({ read, scope }: MovingBlock, plane: PlaneAxes, start: readonly number[]) {
  const value = (letter: string) => read.words.get(letter)?.value;
  const [r, i, j] = [value('R'), value(plane.centres[0]), value(plane.centres[1])];
  const turns = scope.dialect === 'rs274ngc' ? (value('P') ?? 1) : 1;
  if (![r ?? 0, i ?? 0, j ?? 0, turns].every(isNumber)) return null;
  const absolute = onlyCode('arcDistance', scope.state.modes.arcDistance) === 'G90.1';
  const relative = (word: Value | undefined, axis: number) =>
    absolute ? (word === undefined ? 0 : Number(word) - (start[axis] ?? 0)) : Number(word ?? 0);
  return {
    clockwise: onlyCode('motion', scope.state.modes.motion) === 'G2',
    radius: r === undefined ? null : (r as number),
    centre:
      i === undefined && j === undefined
        ? null
        : ([relative(i, plane.first), relative(j, plane.second)] as const),
    turns: Math.max(1, Math.round(turns as number)),
  };
}

function centreInWork(
  arc: ArcGeometry,
  plane: PlaneAxes,
  start: readonly number[],
  scope: Scope,
): readonly [number, number] | null {
  const written: Value[] = [...start];
  [written[plane.first], written[plane.second]] = arc.centre;
  const work = numbers(toWork(scope.state.rig.frame, written, 'arc'));
  return work && [work[plane.first] ?? 0, work[plane.second] ?? 0];
}

function legsOfCycle(block: MovingBlock, cycle: Cycle): readonly Leg[] | null {
  const { scope } = block;
  const { frame } = scope.state.rig;
  const written = numbers(fromWork(frame, block.from, 'cycle'));
  if (written === null) return null;
  const turning = onlyCode('spindle', scope.state.modes.spindle);
  const legs = cycleLegs(cycle, written, {
    dialect: scope.dialect,
    unit: unitOf(scope),
    turning: turning === 'M3' || turning === 'M4' ? turning : null,
  });
  if (legs === null) return null;
  const done: Leg[] = [];
  let at = written;
  for (const leg of legs) {
    if (!('to' in leg)) {
      done.push(leg);
      continue;
    }
    const to = numbers(toWork(frame, leg.to, 'cycle'));
    if (to === null) return null;
    const feed = leg.kind === 'feed' ? { feed: feedFor(distance(at, leg.to), scope) } : {};
    done.push({ ...leg, to, ...feed } as Leg);
    at = [...leg.to];
  }
  return done;
}

export function unitOf({ state, world }: Pick<Scope, 'state' | 'world'>): 'mm' | 'inch' {
  return unitScale(state, world) === 1 ? 'mm' : 'inch';
}

export function numbers(values: readonly Value[]): number[] | null {
  return values.every(isNumber) ? [...values] : null;
}

/** Of the linear axes but those left out; where none moves, of the rotary ones, in degrees. */
function distance(from: readonly number[], to: readonly number[], without: readonly number[] = []): number {
  const along = (axes: readonly number[]) =>
    Math.hypot(...axes.filter((i) => !without.includes(i)).map((i) => (to[i] ?? 0) - (from[i] ?? 0)));
  const linear = along([0, 1, 2]) || along([6, 7, 8]);
  return linear || (without.length === 0 ? along([3, 4, 5]) : 0);
}
