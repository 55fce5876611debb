import type { Part } from './parts.ts';

export type Point = readonly [number, number, number];

export interface Faults {
  /** The touch (counted from 1) that trips half-way to where it really would. */
  readonly falseTrip?: number;
  /** The touch after which the signal stays on. */
  readonly stuckAfter?: number;
  /** The touch from which on the probe never trips. */
  readonly deadFrom?: number;
}

/** What is not perfect, or turns. */
export interface Nature {
  /** Where the ball stands off the spindle's axis at angle 0, mm. */
  readonly runout?: readonly [number, number];
  /** Pre-travel more than the mean one, by the direction of the touch as the probe hangs, degrees. */
  readonly lobes?: (degrees: number) => number;
  /** Where the table turns about. */
  readonly pivot?: readonly [number, number];
}

export interface Moved {
  readonly latched: Point;
  readonly tripped: boolean;
}

/**
 * A machine and a probe made for these tests only, so that they prove the text of a routine apart from our own
 * interpreter: mm, machine coordinates, position is that of the lowest point of the ball. The probe trips when it was pushed
 * `preTravel` along its path (0: along Z); the axis comes to rest `stopping` further on.
 */
export class TestMachine {
  position: Point;
  touches = 0;
  /** The deepest that the ball was ever pushed in, mm. */
  deepest = 0;
  /** Degrees. */
  spindle = 0;
  table = 0;
  private signalOn = false;

  constructor(
    readonly part: Part,
    start: Point,
    private readonly radius: number,
    private readonly preTravel: number,
    private readonly stopping: number,
    private readonly faults: Faults = {},
    private readonly nature: Nature = {},
  ) {
    this.position = start;
  }

  /** Free way between the ball and the part; negative: pushed in. */
  gap([x, y, z]: Point): number {
    const { runout = [0, 0], pivot } = this.nature;
    const [offX, offY] = turned(runout, this.spindle);
    if (pivot === undefined) return this.part(x + offX, y + offY, z + this.radius) - this.radius;
    const [partX, partY] = turned([x + offX - pivot[0], y + offY - pivot[1]], -this.table);
    return this.part(partX + pivot[0], partY + pivot[1], z + this.radius) - this.radius;
  }

  /** A plain move must not touch, and one that begins in contact must lead out of it. */
  plain(to: Point): void {
    const from = this.position;
    let last = this.gap(from);
    for (let step = 1; step <= 200; step++) {
      const gap = this.gap(between(from, to, step / 200));
      if (gap < -1e-6 && gap < last - 1e-6) throw new Error(`collision on the way to ${to.join(' ')}`);
      last = gap;
    }
    this.position = to;
  }

  /** Moves until the probe trips. 'signal-on': it was tripped before the move. */
  touch(to: Point): Moved | 'signal-on' {
    this.touches++;
    if (this.signalOn || this.gap(this.position) < -1e-6) return 'signal-on';
    const from = this.position;
    const way = distance(from, to);
    const isAxial = from[2] !== to[2];
    const contact = this.contactAlong(from, to, way);
    const isDead = this.touches >= (this.faults.deadFrom ?? Number.POSITIVE_INFINITY);
    const trip = contact === null || isDead ? null : contact + (isAxial ? 0 : this.preTravelTo(from, to));
    let latchedAt = trip !== null && trip <= way ? trip : null;
    if (this.faults.falseTrip === this.touches) latchedAt = (latchedAt ?? way) / 2;
    if (latchedAt === null) {
      this.position = to;
      this.note(to);
      return { latched: to, tripped: false };
    }
    const latched = between(from, to, latchedAt / way);
    this.position = between(from, to, Math.min(1, (latchedAt + this.stopping) / way));
    this.note(this.position);
    if (this.faults.stuckAfter === this.touches) this.signalOn = true;
    return { latched, tripped: true };
  }

  private preTravelTo([x, y]: Point, to: Point): number {
    const degrees = (Math.atan2(to[1] - y, to[0] - x) * 180) / Math.PI;
    return this.preTravel + (this.nature.lobes?.(degrees - this.spindle) ?? 0);
  }

  /** Sphere tracing: never steps further than the free way. */
  private contactAlong(from: Point, to: Point, way: number): number | null {
    let at = 0;
    for (let step = 0; step < 100_000 && at <= way; step++) {
      const gap = this.gap(between(from, to, at / way));
      if (gap < 1e-10) return at;
      at += gap;
    }
    return null;
  }

  private note(at: Point): void {
    this.deepest = Math.max(this.deepest, -this.gap(at));
  }
}

function turned([x, y]: readonly [number, number], degrees: number): [number, number] {
  const angle = (degrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return [x * cos - y * sin, x * sin + y * cos];
}

function between(a: Point, b: Point, share: number): Point {
  return [0, 1, 2].map((i) => (a[i] ?? 0) + ((b[i] ?? 0) - (a[i] ?? 0)) * share) as unknown as Point;
}

function distance(a: Point, b: Point): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}
