import { Part } from '../part/part.ts';
import type { Point, Solid } from '../part/solid.ts';
import { undisturbed } from './faults.ts';
import type { Stage } from './rehearse.ts';
import { runOnce } from './runOnce.ts';
import type { RunRecord, TouchRecord } from './runRecord.ts';

export interface Scouted {
  /** The run in which every touch that looks for the part meets it. */
  readonly record: RunRecord;
  /** A small target for each place that is touched. */
  readonly targets: readonly Solid[];
  /** Blocks that were run to find out. */
  readonly blocks: number;
}

export interface Errand {
  readonly stage: Stage;
  /** Radius of the ball, mm. */
  readonly radius: number;
  /** Where along its travel a touch is to meet its target, 0 to 1. */
  readonly share: number;
  /** Whether something rests on what the touches of a line (of the joined program) latch. */
  measures(line: number): boolean;
}

const mostTargets = 60;
const mostBlocks = 50_000;

/**
 * Runs the program again and again, each time with a target more where a touch found nothing, until each one that looks
 * for the part meets something. What it touches follows from its own arithmetic so, loops and calls included.
 */
export function scout(errand: Errand): Scouted {
  const targets: Solid[] = [];
  const known: Met[] = [];
  let blocks = 0;
  for (;;) {
    const record = runIn(errand.stage, targets);
    blocks += record.blocks;
    const missed = record.touches.findIndex(
      (touch, index) => looks(touch) && !touch.tripped && !isGuard(record.touches, index, errand),
    );
    const touch = record.touches[missed];
    const isHopeless = record.end.kind === 'endless' || targets.length >= mostTargets;
    const at = touch && !isHopeless ? meetingPlace(touch, known, errand.share) : null;
    const target = touch && at && targetAt(at, touch.direction, errand.radius);
    if (!target) return { record, targets, blocks };
    targets.push(target);
    known.push({ way: touch.direction, at });
  }
}

/** The undisturbed run with other solids. */
function runIn({ program, parts, setup }: Stage, solids: readonly Solid[]): RunRecord {
  return runOnce(program, parts, { ...undisturbed(setup), solids }, new Part(solids), { mostBlocks });
}

function looks({ code, direction }: TouchRecord): boolean {
  const away = code === 'G38.4' || code === 'G38.5';
  return !away && direction.some((n) => n !== 0);
}

/** A move with the probe armed that is meant to meet nothing: the program goes on without its result, to touch from its end or another way. */
function isGuard(touches: readonly TouchRecord[], index: number, { measures }: Errand): boolean {
  const [touch, next] = [touches[index], touches[index + 1]];
  if (!touch || !next || touch.code === 'G38.2' || measures(touch.line)) return false;
  const along = touch.direction.reduce((sum, n, i) => sum + n * (next.direction[i] ?? 0), 0);
  const apart = touch.latched.map((at, i) => at - (next.from[i] ?? 0));
  return along < 0.9 || Math.hypot(...apart) < 1e-6;
}

/** A target that was put up: the way to it, and where the ball meets it. */
interface Met {
  readonly way: Point;
  readonly at: Point;
}

/** Where a touch that found nothing is to meet something: in one plane with what is met the same way, where it gets there. */
function meetingPlace(
  { from, latched, direction }: TouchRecord,
  known: readonly Met[],
  share: number,
): Point {
  const along = (point: Point) => point.reduce((sum, v, i) => sum + v * (direction[i] ?? 0), 0);
  const start = along(from);
  const travel = along(latched) - start;
  const shares = known.flatMap(({ way, at }) =>
    along(way) > 0.999 && travel > 0 ? [(along(at) - start) / travel] : [],
  );
  const part = shares.findLast((each) => each > 0.05 && each < 0.95) ?? share;
  const [x, y, z] = direction;
  const way = part * travel;
  return [from[0] + x * way, from[1] + y * way, from[2] + z * way];
}

/** Something that a touch meets head-on, its ball or tip there; null: it has no way to meet something on. */
function targetAt(at: Point, [nx, ny, nz]: Point, radius: number): Solid | null {
  const [x, y, z] = at;
  const half = radius + 1;
  if (Math.abs(nz) > 0.7) {
    const outline = { kind: 'rectangle', x, y, halfX: half, halfY: half, angle: 0 } as const;
    if (nz < 0) return { role: 'add', outline, bottom: z - 10, top: z };
    return { role: 'add', outline, bottom: z + 2 * radius, top: z + 2 * radius + 10 };
  }
  const flat = Math.hypot(nx, ny);
  if (flat < 1e-9) return null;
  const reach = (radius + targetThickness / 2) / flat;
  const outline = {
    kind: 'rectangle',
    x: x + nx * reach,
    y: y + ny * reach,
    halfX: targetThickness / 2,
    halfY: half,
    angle: Math.atan2(ny, nx),
  } as const;
  return { role: 'add', outline, bottom: z - 5, top: z + 2 * radius + 1 };
}

const targetThickness = 10;
