import type { Part } from '../part/part.ts';
import { line, type Path } from '../part/path.ts';
import type { Point } from '../part/solid.ts';
import type { State } from '../program/state.ts';
import { isNumber } from '../program/value.ts';
import type { Leg, TouchRequest } from '../program/world.ts';
import type { Chance } from './chance.ts';
import type { Disturbance } from './disturbance.ts';
import { legPath } from './legPath.ts';
import type { MachineParts } from './machineParts.ts';
import { missedHow } from './missedHow.ts';
import { hitAlong, type Stylus, stemHit } from './plainMotion.ts';
import type { RunLog } from './runLog.ts';
import { isTripped, type Touched, touchMotion } from './touchMotion.ts';
import { onMachine, type ZeroPoint } from './zeroPoint.ts';

/** A touch or a piece of a motion between two places in work coordinates. */
export interface Way {
  readonly from: readonly number[];
  readonly to: readonly number[];
  readonly zero: ZeroPoint;
  readonly line: number;
}

interface Checked {
  readonly line: number;
  readonly away: boolean;
  readonly path: Path;
  /** From the gauge line down to the ball's centre. */
  readonly down: number;
}

/** mm/min of rapid moves, for the time only: the profile does not say. */
const rapidFeed = 5000;

/** The axes with the probe in the spindle, near the part: what each motion meets, and where each touch ends. */
export class ArmedMachine {
  /** The touch after which the signal stays on; null: it does not. */
  private stuckAfter: number | null = null;
  /** Touches begun. */
  count = 0;

  constructor(
    private readonly parts: MachineParts,
    private readonly disturbed: Disturbance,
    private readonly part: Part,
    private readonly chance: Chance,
    private readonly log: RunLog,
  ) {
    const { trippedBefore, falseTrip, stuckAfter, deadProbe } = disturbed;
    for (const touch of trippedBefore) log.waiting.add(`tripped before ${touch}`);
    for (const touch of falseTrip) log.waiting.add(`false at ${touch}`);
    for (const touch of stuckAfter) log.waiting.add(`stuck after ${touch}`);
    if (deadProbe) log.waiting.add('dead');
  }

  /** The ball is pushed against the part where the axes stand. */
  touchesPart(work: readonly number[], zero: ZeroPoint, state: State): boolean {
    if (!this.holdsProbe(state)) return false;
    const [x, y, z] = lowered(onMachine(zero, work), this.down(state));
    return this.part.distanceTo(x, y, z).distance < this.parts.probe.radius - 1e-7;
  }

  /** The stem runs through the part where the axes stand. */
  stemInPart(work: readonly number[], zero: ZeroPoint, state: State): boolean {
    const down = this.down(state);
    if (!this.holdsProbe(state) || down <= 0) return false;
    const [x, y, z] = lowered(onMachine(zero, work), down);
    return this.part.clearanceOf(x, y, z, z + down).distance < this.stemRadius() - 1e-7;
  }

  /** A piece of a plain motion. */
  move(leg: Leg & { readonly to: readonly number[] }, { from, to, zero, line: at }: Way, state: State): void {
    const { log, part } = this;
    const down = this.down(state);
    const path = legPath(leg, from, zero, down);
    if (path === null) {
      log.notFollowed(at, 'an arc out of the plane of a turned work offset');
      return;
    }
    const feed = ('feed' in leg ? leg.feed : null) ?? rapidFeed;
    this.spend(path.length, (feed * this.disturbed.override) / 60);
    if (from.some((v, i) => i > 2 && i < 6 && Math.abs(v - (to[i] ?? v)) > 1e-9))
      log.cautions.add('rotary axes move, and the part does not turn with them');
    if (!this.holdsProbe(state)) return;
    const hit = hitAlong(part, path, this.stylus(down));
    if (hit === null) return;
    const [x = 0, y = 0, z = 0] = path.at(hit.at);
    const near = hit.with === 'tip' ? part.distanceTo(x, y, z) : part.clearanceOf(x, y, z, z + down);
    log.collide({ line: at, point: [near.x, near.y, near.z], with: hit.with });
  }

  /** A touch that the control has begun; leaves position, latched coordinates and success in the state. */
  touch(request: TouchRequest, way: Way, state: State): void {
    const { disturbed, part } = this;
    const { probe, probeTool } = this.parts;
    if (!this.holdsProbe(state)) {
      const tool = String(state.rig.loadedTool);
      this.log.notFollowed(way.line, `a touch with tool ${tool}, where the probe is tool ${probeTool}`);
      return;
    }
    const down = this.down(state);
    const at = (work: readonly number[]) => lowered(onMachine(way.zero, work), down);
    const path = line(at(way.from), at(way.to));
    const direction = path.direction(0);
    const isStuck = this.stuckAfter !== null;
    const forced = isStuck || disturbed.trippedBefore.includes(this.count);
    const isOn = forced || (!disturbed.deadProbe && isTripped(part, probe, path.at(0), this.turn(state)));
    this.takeOccasion(request.away);
    if (isOn !== request.away) {
      this.refuse(request, way, direction, isOn, state);
      return;
    }
    const dead = disturbed.deadProbe || isStuck;
    const tripsFalsely = !dead && disturbed.falseTrip.includes(this.count);
    if (tripsFalsely) this.log.waiting.delete(`false at ${this.count}`);
    const speed = (Number(state.feed.value) * disturbed.override) / 60;
    const touched = touchMotion({
      part,
      probe,
      path,
      speed,
      turn: this.turn(state),
      away: request.away,
      dead,
      tripsFalsely,
      chance: this.chance.touch(probe.probe),
    });
    this.spend(touched.reached, speed);
    this.finish(request, touched, path.length, direction, way, state);
    this.check({ line: way.line, away: request.away, path, down }, touched);
    const surface = touched.contact?.point ?? null;
    if (disturbed.stuckAfter.includes(this.count) && touched.latched !== null) this.stuckAfter ??= this.count;
    if (touched.latched === null && request.alarms)
      this.log.alarm(way.line, `${missedHow({ code: request.code, surface })} within the travel`);
  }

  /** What was to go wrong at this touch does so now. */
  private takeOccasion(away: boolean): void {
    const { waiting } = this.log;
    waiting.delete('dead');
    if (!away) waiting.delete(`tripped before ${this.count}`);
    if (this.stuckAfter !== null) waiting.delete(`stuck after ${this.stuckAfter}`);
  }

  private finish(
    request: TouchRequest,
    touched: Touched,
    length: number,
    direction: Point,
    { from, to, zero, line: at }: Way,
    state: State,
  ): void {
    const between = (s: number) => {
      const share = length > 0 ? s / length : 0;
      return to.map((v, i) => (from[i] ?? 0) + (v - (from[i] ?? 0)) * share);
    };
    const latched = between(touched.latched ?? length);
    state.position = between(touched.rest);
    state.success = touched.latched === null ? 0 : 1;
    this.latch(latched, zero.unit, state);
    const { contact } = touched;
    this.log.touches.push({
      line: at,
      code: request.code,
      direction,
      from: lowered(onMachine(zero, from), this.toolLength(state)),
      latched: lowered(onMachine(zero, latched), this.toolLength(state)),
      tripped: touched.latched !== null,
      surface: contact?.point ?? null,
      solid: contact?.solid ?? null,
      normal: contact?.normal ?? null,
      overtravel: touched.overtravel,
    });
  }

  /** Whether the touch broke the probe. */
  private check({ line: at, away, path, down }: Checked, touched: Touched): void {
    const { contact } = touched;
    if (contact && touched.pushed > this.parts.probe.limit(contact.normal)) {
      this.log.collide({ line: at, point: contact.point, with: 'overtravel' });
      return;
    }
    const met = stemHit(this.part, path, this.stylus(down));
    // From its first contact on the stylus gives way: how far it may is the overtravel's matter.
    const free = contact && !away ? Math.min(contact.at, touched.reached) : touched.reached;
    if (met === null || met > free) return;
    const [x = 0, y = 0, z = 0] = path.at(met);
    const near = this.part.clearanceOf(x, y, z, z + down);
    this.log.collide({ line: at, point: [near.x, near.y, near.z], with: 'stem' });
  }

  /** The signal is not as the touch wants it: an alarm, or a skip move that completes at once. */
  private refuse(
    { code }: TouchRequest,
    { from, zero, line: at }: Way,
    direction: Point,
    isOn: boolean,
    state: State,
  ): void {
    if (code !== 'G31') {
      this.log.alarm(at, isOn ? 'the probe is tripped before it moves' : 'the probe is not tripped');
      return;
    }
    state.position = [...from];
    state.success = 1;
    this.latch(from, zero.unit, state);
    const latched = lowered(onMachine(zero, from), this.toolLength(state));
    const none = { surface: null, solid: null, normal: null };
    const touch = { line: at, code, direction, from: latched, latched, tripped: true, overtravel: 0 };
    this.log.touches.push({ ...touch, ...none });
  }

  private latch(work: readonly number[], unit: number, state: State): void {
    const { probe } = this.parts.probe;
    state.latched = work.map((v, i) => (i > 2 && i < 6 ? v : this.chance.rounded(v * unit, probe)));
  }

  private spend(way: number, speed: number): void {
    this.log.seconds += way / speed + speed / this.parts.probe.probe.machine.deceleration;
  }

  /** Degrees from where the probe was calibrated; what a spindle that ran stands at nobody knows. */
  private turn({ rig: { spindleAngle } }: State): number {
    const { setup, calibratedAt } = this.parts;
    return (isNumber(spindleAngle) ? spindleAngle : setup.spindle) - calibratedAt;
  }

  private stylus(down: number): Stylus {
    return { radius: this.parts.probe.radius, stemRadius: this.stemRadius(), stemHeight: down };
  }

  private stemRadius(): number {
    return this.parts.probe.probe.stylus.stemDiameter / 2;
  }

  private toolLength(state: State): number {
    return (this.parts.values.loaded(state)?.length ?? 0) + this.disturbed.lengthError;
  }

  /** From the gauge line down to the ball's centre. */
  private down(state: State): number {
    return this.toolLength(state) - this.parts.probe.radius;
  }

  /** Motions with another tool are not looked at: what it is shaped like is not known. */
  private holdsProbe(state: State): boolean {
    const { probeTool } = this.parts;
    const tool = state.rig.loadedTool;
    if (probeTool === null || !isNumber(tool) || tool === probeTool || tool === 0) return true;
    this.log.cautions.add(`motions with tool ${tool} were not looked at: the probe is tool ${probeTool}`);
    return false;
  }
}

function lowered([x, y, z]: Point, down: number): Point {
  return [x, y, z - down];
}
