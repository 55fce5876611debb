import type { Part } from '../part/part.ts';
import { line } from '../part/path.ts';
import type { Setup } from '../part/setup.ts';
import type { Point } from '../part/solid.ts';
import type { Scope } from '../program/evaluate.ts';
import { maskOf, onlyCode } from '../program/modes.ts';
import { activeOffset, offsetNumber, readParameter } from '../program/parameters.ts';
import type { ReadBlock } from '../program/readBlock.ts';
import { axisLetters, type State } from '../program/state.ts';
import { isNumber, type Value } from '../program/value.ts';
import type { Leg, MachineEvent, Motion, OffsetWrite, TouchRequest, Use, World } from '../program/world.ts';
import type { DialectName } from '../syntax/dialect.ts';
import type { Place } from '../syntax/place.ts';
import { alarmWords } from './alarmWords.ts';
import { type Chance, noChance } from './chance.ts';
import type { Disturbance } from './disturbance.ts';
import { legPath } from './legPath.ts';
import type { MachineValues } from './machineValues.ts';
import { hitAlong } from './plainMotion.ts';
import type { Collision, DatumWritten, RunEnd, Told, TouchRecord } from './runRecord.ts';
import { isTripped, type Touched, touchMotion } from './touchMotion.ts';
import type { VirtualProbe } from './virtualProbe.ts';
import { onMachine, type ZeroPoint, zeroPoint } from './zeroPoint.ts';

/** What a machine needs to know beside the setup. */
export interface MachineParts {
  readonly setup: Setup;
  readonly values: MachineValues;
  readonly probe: VirtualProbe;
  /** Tool number of the probe; null: whatever is in the spindle is the probe. */
  readonly probeTool: number | null;
  readonly calibratedAt: number;
  readonly dialect: DialectName;
  readonly assumedUnit: 'mm' | 'inch';
  /** Lines whose messages the undisturbed run shows; null: this is that run. */
  readonly usualMessages: ReadonlySet<number> | null;
}

const slowestMachine = { rapid: 5000, seconds: 36_000 };
/** NISTIR 6556, 3.5.9.1: a touch that starts nearer than this to its end is an error. */
const leastTravel = 0.254;

/**
 * The machine that a program runs on, with its part and its probe: it answers what the interpreter asks and moves as told.
 * Where the axes stand is the interpreter's state; all that follows from it (contacts, trips, collisions) is worked out here.
 */
export class VirtualMachine implements World {
  readonly assumedUnit: 'mm' | 'inch';
  readonly touches: TouchRecord[] = [];
  readonly collisions: Collision[] = [];
  readonly messages: Told[] = [];
  readonly stops: number[] = [];
  readonly written: DatumWritten[] = [];
  /** Lines that kept a coordinate of a touch that met nothing. */
  readonly kept: number[] = [];
  readonly cautions = new Set<string>();
  ended: RunEnd | null = null;
  applied: boolean;
  seconds = 0;
  private readonly part: Part;
  private readonly probe: VirtualProbe;
  private spindle: number;
  private isStuck = false;
  private readonly pending: { readonly line: number; readonly key: string; readonly number: number }[] = [];
  private count = 0;

  constructor(
    private readonly parts: MachineParts,
    private readonly disturbed: Disturbance,
    part: Part,
    private readonly chance: Chance = noChance,
  ) {
    this.part = part;
    this.probe = parts.probe;
    this.assumedUnit = parts.assumedUnit;
    this.spindle = parts.setup.spindle;
    const { trippedBefore, falseTrip, stuckAfter } = disturbed;
    this.applied =
      trippedBefore === null && falseTrip === null && stuckAfter === null && !disturbed.deadProbe;
  }

  /** Where the ball stands, mm, machine coordinates; null: not a number. */
  centre(scope: Scope): Point | null {
    const zero = zeroPoint(scope);
    if (zero === null || !scope.state.position.slice(0, 3).every(isNumber)) return null;
    const [x, y, z] = onMachine(zero, scope.state.position as number[]);
    return [x, y, z - this.down(scope.state)];
  }

  /** The part is nearer to the ball's centre than its radius. */
  touchesPart(scope: Scope): boolean {
    if (!this.holdsProbe(scope.state)) return false;
    const at = this.centre(scope);
    return at !== null && this.part.distanceTo(...at).distance < this.probe.radius - 1e-7;
  }

  parameter(name: string, state: State, place: Place): Value | null {
    const value = this.parts.values.parameter(name, state, this);
    if (value === null && name.startsWith('tool:'))
      this.end({
        kind: 'alarm',
        line: place.line,
        text: `tool ${name.split(':')[1]} is not in the tool table`,
      });
    else if (value === null && this.parts.dialect === 'rs274ngc' && name !== '5410')
      this.end({ kind: 'alarm', line: place.line, text: `#<${name}> is read before anything sets it` });
    return value ?? 0;
  }

  system(number: number, state: State): Value | null {
    if (number >= 5061 && number <= 5069) return state.latched[number - 5061] === null ? 0 : null;
    return null;
  }

  exists(name: string, state: State): boolean {
    return state.locals.has(name) || state.globals.has(name) || this.parts.values.holds(name);
  }

  block(read: ReadBlock): void {
    for (const { code } of read.codes) {
      if (code === 'M19') this.orient(read);
      else if (code === 'M3' || code === 'M4')
        this.cautions.add('the spindle turned: where the lobes point afterwards is not known');
    }
  }

  /** What a touch that met nothing has latched is no place of the part; who goes on with it is remembered. */
  used(value: Value, use: Use, place: Place, state: State): void {
    if ((use !== 'copy' && use !== 'arithmetic') || state.success !== 0 || this.touches.length === 0) return;
    const unit = state.modes.units === maskOf('units', 'G20') ? 25.4 : 1;
    if (isNumber(value) && state.latched.some((v) => v === value * unit)) this.kept.push(place.line);
  }

  fault(code: string, place: Place): void {
    this.end({ kind: 'alarm', line: place.line, text: alarmWords(code) });
  }

  toolChange(): void {
    this.seconds += 5;
  }

  event(event: MachineEvent, place: Place): void {
    if (event.kind === 'dwell') this.seconds += isNumber(event.seconds) ? Math.max(0, event.seconds) : 0;
    else if (event.kind === 'stop') this.stop(place.line);
    else if (event.kind === 'alarm')
      this.end({ kind: 'alarm', line: place.line, text: event.text || 'an alarm of the program' });
    else {
      this.messages.push({ line: place.line, text: event.text });
      // A number comes with the message that stops (#3006).
      if (event.number !== null) this.stop(place.line);
    }
  }

  /** A work offset is told before it is written; its value is read once the block is done. */
  offset({ system, axis, place }: OffsetWrite, state: State): void {
    const named = system === 'active' ? (activeOffset(state) ?? system) : system;
    const number = named === 'G92' ? 5211 : offsetNumber(named);
    const letter = axisLetters[axis]?.toLowerCase();
    if (number !== null && letter !== undefined)
      this.pending.push({ line: place.line, key: `${named}.${letter}`, number: number + axis });
  }

  /** Origins of the work offsets that the setup names or the run wrote, mm. */
  origins(scope: Scope, unit: number): Map<string, Point> {
    const systems = new Set([
      ...this.parts.setup.workOffsets.keys(),
      ...this.written.map(({ key }) => key.split('.').slice(0, -1).join('.')),
    ]);
    const origins = new Map<string, Point>();
    for (const system of systems) {
      const first = offsetNumber(system);
      if (first === null) continue;
      const at = (i: number) => {
        const value = readParameter(String(first + i), scope.state, this, scope.dialect, {
          line: 0,
          start: 0,
          end: 0,
        });
        return isNumber(value) ? value * unit : Number.NaN;
      };
      origins.set(system, [at(0), at(1), at(2)]);
    }
    return origins;
  }

  /** To be called after each block. */
  blockDone(scope: Scope, unit: number): void {
    for (const { line, key, number } of this.pending.splice(0)) {
      const name = String(number);
      const value = readParameter(name, scope.state, this, scope.dialect, { line, start: 0, end: 0 });
      const scale = /\.[abc]$/.test(key) ? 1 : unit;
      if (isNumber(value)) this.written.push({ line, key, value: value * scale, touches: this.count });
    }
    if (this.seconds > slowestMachine.seconds)
      this.end({ kind: 'endless', line: scope.line, text: 'more than ten hours on the machine' });
  }

  motion(motion: Motion, state: State): void {
    if (this.ended) return;
    const scope = this.scopeOf(motion.place, state);
    const legs = motion.legs() ?? straight(motion);
    const zero = zeroPoint(scope);
    if (this.ended) return;
    if (legs === null || zero === null) {
      this.lost(motion.place.line, 'a motion whose way is not known');
      return;
    }
    let from = motion.from as number[];
    for (const leg of legs) {
      if (leg.kind === 'dwell') this.seconds += leg.seconds;
      if (!('to' in leg)) continue;
      if (!leg.to.every(Number.isFinite)) {
        this.lost(motion.place.line, 'a position that is no number');
        return;
      }
      this.leg(leg, from, zero, motion.place.line, state);
      from = [...leg.to];
      if (this.ended) return;
    }
  }

  touch(request: TouchRequest, state: State): void {
    if (this.ended) return;
    const scope = this.scopeOf(request.place, state);
    const zero = zeroPoint(scope);
    const [from, to] = [request.from, request.to];
    if (zero === null || !from.every(isNumber) || !to.every(Number.isFinite as (v: Value) => boolean)) {
      this.lost(request.place.line, 'a touch to a position that is no number');
      return;
    }
    this.count++;
    const reason = this.refusal(request, from as number[], to as number[], zero, state);
    if (reason !== null) {
      this.end({ kind: 'alarm', line: request.place.line, text: reason });
      return;
    }
    this.runTouch(request, from as number[], to as number[], zero, state);
  }

  private runTouch(
    request: TouchRequest,
    from: readonly number[],
    to: readonly number[],
    zero: ZeroPoint,
    state: State,
  ): void {
    const { disturbed, probe, part } = this;
    const speed = (Number(state.feed.value) * disturbed.override) / 60;
    const down = this.down(state);
    const path = line(lowered(onMachine(zero, from), down), lowered(onMachine(zero, to), down));
    const forced = this.isStuck || disturbed.trippedBefore === this.count;
    const isOn = forced || (!disturbed.deadProbe && isTripped(part, probe, path.at(0), this.turn()));
    if (forced) this.applied ||= !request.away || this.isStuck;
    if (isOn !== request.away) {
      this.refused(request, from, path.direction(0), isOn, zero, state);
      return;
    }
    if (disturbed.deadProbe) this.applied = true;
    if (disturbed.falseTrip === this.count) this.applied = true;
    const touched = touchMotion({
      part,
      probe,
      path,
      speed,
      turn: this.turn(),
      away: request.away,
      dead: disturbed.deadProbe || this.isStuck,
      tripsFalsely: disturbed.falseTrip === this.count,
      chance: this.chance.touch(probe.probe),
    });
    this.seconds += touched.reached / speed + speed / probe.probe.machine.deceleration;
    this.finish(request, touched, path.length, from, to, zero, state);
    this.checkTouch(request.place.line, touched, path.at(touched.reached), state, down);
    if (disturbed.stuckAfter === this.count && touched.latched !== null) this.isStuck = true;
    if (touched.latched === null && request.alarms && !this.ended) {
      const text = request.away ? 'the probe did not come free' : 'no contact within the travel';
      this.end({ kind: 'alarm', line: request.place.line, text });
    }
  }

  /** Leaves latched coordinates, success and position in the state, and the record of the touch. */
  private finish(
    request: TouchRequest,
    touched: Touched,
    length: number,
    from: readonly number[],
    to: readonly number[],
    zero: ZeroPoint,
    state: State,
  ): void {
    const share = (s: number) => (length > 0 ? s / length : 0);
    const between = (s: number) => to.map((v, i) => (from[i] ?? 0) + (v - (from[i] ?? 0)) * share(s));
    const latched = between(touched.latched ?? length);
    state.position = between(touched.rest);
    this.latch(latched, zero.unit, state);
    state.success = touched.latched === null ? 0 : 1;
    const work = latched.slice(0, 3);
    const tip = this.down(state) + this.probe.radius;
    const { contact } = touched;
    this.touches.push({
      line: request.place.line,
      code: request.code,
      direction: unitVector(onMachine(zero, from), onMachine(zero, to)),
      latched: lowered(onMachine(zero, work), tip),
      tripped: touched.latched !== null,
      surface: contact?.point ?? null,
      solid: contact?.solid ?? null,
      normal: contact?.normal ?? null,
      overtravel: touched.overtravel,
    });
  }

  private latch(latched: readonly number[], unit: number, state: State): void {
    state.latched = latched.map((v, i) =>
      i >= 3 && i <= 5 ? v : this.chance.rounded(v * unit, this.probe.probe),
    );
  }

  private checkTouch(
    line: number,
    touched: Touched,
    end: readonly number[],
    state: State,
    down: number,
  ): void {
    if (!this.holdsProbe(state)) return;
    const { contact } = touched;
    if (contact && touched.pushed > this.probe.limit(contact.normal)) {
      this.collide(line, contact.point, 'overtravel');
      return;
    }
    const [x = 0, y = 0, z = 0] = end;
    const stem = this.part.clearanceOf(x, y, z, z + Math.max(0, down));
    if (down > 0 && stem.distance < this.stemRadius()) this.collide(line, [stem.x, stem.y, stem.z], 'stem');
  }

  /** The signal was not as the touch wants it: an alarm, or a skip move that completes at once. */
  private refused(
    request: TouchRequest,
    from: readonly number[],
    direction: Point,
    isOn: boolean,
    zero: ZeroPoint,
    state: State,
  ): void {
    const line = request.place.line;
    if (request.code !== 'G31') {
      const text = isOn ? 'the probe is tripped before it moves' : 'the probe is not tripped';
      this.end({ kind: 'alarm', line, text });
      return;
    }
    state.position = [...from];
    this.latch(from, zero.unit, state);
    state.success = 1;
    const latched = lowered(onMachine(zero, from), this.down(state) + this.probe.radius);
    const none = { surface: null, solid: null, normal: null };
    this.touches.push({
      line,
      code: request.code,
      direction,
      latched,
      tripped: true,
      ...none,
      overtravel: 0,
    });
  }

  /** Why a control does not begin this touch (NISTIR 6556, 3.5.9.1 for rs274ngc); null: it does. */
  private refusal(
    { code, axes }: TouchRequest,
    from: readonly number[],
    to: readonly number[],
    zero: ZeroPoint,
    state: State,
  ): string | null {
    const feed = state.feed.value;
    if (!isNumber(feed)) return 'a touch without a feed per minute';
    if (!(feed > 0)) return 'a touch at a feed of zero';
    if (!axes.some((axis) => axis < 3)) return 'a touch that names none of X, Y and Z';
    const travel = zero.unit * Math.hypot(...[0, 1, 2].map((i) => (to[i] ?? 0) - (from[i] ?? 0)));
    if (code === 'G31') return travel > 0 ? null : 'a touch without a way to go';
    if (travel < leastTravel - 1e-9) return `a touch of less than ${leastTravel} mm`;
    if (from.some((v, i) => i > 2 && i < 6 && v !== to[i])) return 'a touch that turns a rotary axis';
    const spindle = onlyCode('spindle', state.modes.spindle);
    if (spindle === 'M3' || spindle === 'M4') return 'a touch while the spindle turns';
    const compensation = onlyCode('cutterCompensation', state.modes.cutterCompensation);
    return compensation !== null && compensation !== 'G40' ? 'a touch with cutter compensation on' : null;
  }

  private leg(
    leg: Leg & { readonly to: readonly number[] },
    from: readonly number[],
    zero: ZeroPoint,
    line: number,
    state: State,
  ): void {
    const down = this.down(state);
    const path = legPath(leg, from, zero, down);
    if (path === null) {
      this.lost(line, 'an arc out of the plane of a turned work offset');
      return;
    }
    const feed = ('feed' in leg ? leg.feed : null) ?? slowestMachine.rapid;
    const speed = (feed * this.disturbed.override) / 60;
    this.seconds += path.length / speed + speed / this.probe.probe.machine.deceleration;
    if (from.some((v, i) => i > 2 && i < 6 && Math.abs(v - (leg.to[i] ?? v)) > 1e-9))
      this.cautions.add('rotary axes move, and the part does not turn with them');
    if (!this.holdsProbe(state)) return;
    const stylus = { radius: this.probe.radius, stemRadius: this.stemRadius(), stemHeight: down };
    const hit = hitAlong(this.part, path, stylus);
    if (hit === null) return;
    const [x = 0, y = 0, z = 0] = path.at(hit.at);
    const near =
      hit.with === 'tip' ? this.part.distanceTo(x, y, z) : this.part.clearanceOf(x, y, z, z + down);
    this.collide(line, [near.x, near.y, near.z], hit.with);
  }

  private collide(line: number, point: Point, kind: Collision['with']): void {
    this.collisions.push({ line, point, with: kind });
    this.end({ kind: 'collision', line });
  }

  private stop(line: number): void {
    this.stops.push(line);
    const { usualMessages } = this.parts;
    const said = this.messages.at(-1);
    if (usualMessages !== null && said && !usualMessages.has(said.line)) this.end({ kind: 'stop', line });
  }

  private orient(read: ReadBlock): void {
    const angle = read.words.get('R')?.value ?? read.words.get('S')?.value ?? 0;
    if (isNumber(angle)) this.spindle = angle;
  }

  private lost(line: number, text: string): void {
    this.end({ kind: 'not-followed', line, text });
  }

  end(end: RunEnd): void {
    this.ended ??= end;
  }

  private turn(): number {
    return this.spindle - this.parts.calibratedAt;
  }

  private stemRadius(): number {
    return this.probe.probe.stylus.stemDiameter / 2;
  }

  /** From the gauge line down to the ball's centre. */
  private down(state: State): number {
    const length = (this.parts.values.loaded(state)?.length ?? 0) + this.disturbed.lengthError;
    return length - this.probe.radius;
  }

  /** Motions with another tool are not looked at: what it is shaped like is not known. */
  private holdsProbe(state: State): boolean {
    const { probeTool } = this.parts;
    const tool = state.rig.loadedTool;
    if (probeTool === null || !isNumber(tool) || tool === probeTool || tool === 0) return true;
    this.cautions.add(`motions with tool ${tool} were not looked at: the probe is tool ${probeTool}`);
    return false;
  }

  private scopeOf({ line }: Place, state: State): Scope {
    return { state, world: this, dialect: this.parts.dialect, line };
  }
}

/** A motion code was not in force: the axes go straight all the same. */
function straight({ kind, from, to }: Motion): readonly Leg[] | null {
  if (kind !== 'unknown' || !from.every(isNumber) || !to.every(isNumber)) return null;
  return [{ kind: 'feed', to: to as number[], feed: null }];
}

function lowered([x, y, z]: Point, down: number): Point {
  return [x, y, z - down];
}

function unitVector(from: Point, to: Point): Point {
  const way: Point = [to[0] - from[0], to[1] - from[1], to[2] - from[2]];
  const length = Math.hypot(...way) || 1;
  return [way[0] / length, way[1] / length, way[2] / length];
}
