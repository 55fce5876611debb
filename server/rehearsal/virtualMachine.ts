import type { Part } from '../part/part.ts';
import type { Point } from '../part/solid.ts';
import type { Scope } from '../program/evaluate.ts';
import { maskOf } from '../program/modes.ts';
import { activeOffset, offsetNumber, readParameter } from '../program/parameters.ts';
import type { ReadBlock } from '../program/readBlock.ts';
import { axisLetters, type State } from '../program/state.ts';
import { isNumber, type Value } from '../program/value.ts';
import type { Leg, MachineEvent, Motion, OffsetWrite, TouchRequest, Use, World } from '../program/world.ts';
import type { Place } from '../syntax/place.ts';
import { alarmWords } from './alarmWords.ts';
import { ArmedMachine } from './armedMachine.ts';
import { type Chance, noChance } from './chance.ts';
import type { Disturbance } from './disturbance.ts';
import { isRotaryKey } from './expectations.ts';
import { lastWords } from './lastWords.ts';
import type { MachineParts } from './machineParts.ts';
import { RunLog } from './runLog.ts';
import { touchRefusal } from './touchRefusal.ts';
import { type ZeroPoint, zeroPoint } from './zeroPoint.ts';

const toolChangeSeconds = 5;
const mostSeconds = 36_000;

/**
 * The machine as the interpreter sees it: it answers for its parameters, takes motions and touches, hears messages. Where
 * the axes stand is the interpreter's state.
 */
export class VirtualMachine implements World {
  readonly assumedUnit: 'mm' | 'inch';
  readonly log = new RunLog();
  private readonly armed: ArmedMachine;
  private keepsZero = false;
  /** undefined: it is to be found out anew. */
  private zero: ZeroPoint | null | undefined = undefined;
  private readonly pending: { readonly line: number; readonly key: string; readonly number: number }[] = [];

  constructor(
    private readonly parts: MachineParts,
    disturbed: Disturbance,
    part: Part,
    chance: Chance = noChance,
  ) {
    this.assumedUnit = parts.assumedUnit;
    this.armed = new ArmedMachine(parts, disturbed, part, chance, this.log);
  }

  /** To be called before each block; `keepsZero`: nothing in it can move the zero of the work coordinates. */
  beginBlock(keepsZero: boolean): void {
    this.keepsZero = keepsZero;
    if (!keepsZero) this.zero = undefined;
  }

  /** The ball is pushed against the part. */
  touchesPart(scope: Scope): boolean {
    const zero = zeroPoint(scope);
    const { position } = scope.state;
    if (zero === null || !position.every(isNumber)) return false;
    return this.armed.touchesPart(position as number[], zero, scope.state);
  }

  /** What stands in the part where the axes are; null: nothing. */
  standingIn(scope: Scope): 'tip' | 'stem' | null {
    if (this.touchesPart(scope)) return 'tip';
    const zero = zeroPoint(scope);
    const { position } = scope.state;
    if (zero === null || !position.every(isNumber)) return null;
    return this.armed.stemInPart(position as number[], zero, scope.state) ? 'stem' : null;
  }

  parameter(name: string, state: State, place: Place): Value | null {
    const value = this.parts.values.parameter(name, state, this);
    if (this.parts.values.isInput(name))
      this.log.cautions.add(
        `#${name} is an input of the machine, which the rehearsal does not have: it reads 0, or what "parameters" of the setup says`,
      );
    if (value !== null) return value;
    if (name.startsWith('tool:'))
      this.log.alarm(place.line, `tool ${name.split(':')[1]} is not in the tool table`);
    else if (name !== '5410') this.log.alarm(place.line, `#<${name}> is read before anything sets it`);
    return 0;
  }

  system(number: number, state: State): Value | null {
    return number >= 5061 && number <= 5069 && state.latched[number - 5061] === null ? 0 : null;
  }

  exists(name: string, state: State): boolean {
    return state.locals.has(name) || state.globals.has(name) || this.parts.values.holds(name);
  }

  block(read: ReadBlock): void {
    for (const { code } of read.codes) {
      if (code === 'M3' || code === 'M4')
        this.log.cautions.add('the spindle turned: where the lobes point afterwards is not known');
    }
  }

  /** What a touch that met nothing has latched is no place of the part; who goes on with it is remembered. */
  used(value: Value, use: Use, place: Place, state: State): void {
    if ((use !== 'copy' && use !== 'arithmetic') || state.success !== 0) return;
    const direction = this.log.touches.at(-1)?.direction;
    if (!direction || !isNumber(value)) return;
    const unit = state.modes.units === maskOf('units', 'G20') ? 25.4 : 1;
    const isLatched = direction.some((n, axis) => Math.abs(n) > 1e-9 && state.latched[axis] === value * unit);
    if (isLatched) this.log.kept.push(place.line);
  }

  fault(code: string, place: Place): void {
    this.log.alarm(place.line, alarmWords(code));
  }

  toolChange(): void {
    this.log.seconds += toolChangeSeconds;
  }

  event(event: MachineEvent, place: Place): void {
    const { log } = this;
    if (event.kind === 'dwell') log.seconds += isNumber(event.seconds) ? Math.max(0, event.seconds) : 0;
    else if (event.kind === 'stop') this.stop(place.line);
    else if (event.kind === 'alarm') log.alarm(place.line, event.text || 'an alarm of the program');
    else {
      log.messages.push({ line: place.line, text: event.text, written: log.written.length });
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

  motion(motion: Motion, state: State): void {
    const { line } = motion.place;
    if (this.log.ended) return;
    const legs = motion.legs() ?? straight(motion);
    const zero = this.zeroFor(line, state);
    if (legs === null || zero === null) {
      this.log.notFollowed(line, 'a motion whose way is not known');
      return;
    }
    let from = motion.from as readonly number[];
    for (const leg of legs) {
      if (leg.kind === 'dwell') this.log.seconds += leg.seconds;
      if (!('to' in leg)) continue;
      if (!leg.to.every(Number.isFinite)) this.log.notFollowed(line, 'a position that is no number');
      if (this.log.ended) return;
      this.armed.move(leg, { from, to: leg.to, zero, line }, state);
      from = leg.to;
    }
  }

  touch(request: TouchRequest, state: State): void {
    const { line } = request.place;
    if (this.log.ended) return;
    const zero = this.zeroFor(line, state);
    const [from, to] = [request.from.filter(isNumber), request.to.filter(isNumber)];
    if (zero === null || from.length < 9 || to.length < 9 || !to.every(Number.isFinite)) {
      this.log.notFollowed(line, 'a touch to a position that is no number');
      return;
    }
    this.armed.count++;
    const reason = touchRefusal(request, from, to, zero.unit, state);
    if (reason === null) this.armed.touch(request, { from, to, zero, line }, state);
    else this.log.alarm(line, reason);
  }

  /** To be called after each block; `unit`: mm of one program unit. */
  blockDone(scope: Scope, unit: number): void {
    for (const { line, key, number } of this.pending.splice(0)) {
      const value = this.number(number, scope);
      const scale = isRotaryKey(key) ? 1 : unit;
      const lengthLeftOut = this.parts.values.lengthLeftOut(scope.state);
      const { count: touches } = this.armed;
      this.log.written.push({ line, key, value: value * scale, touches, lengthLeftOut });
    }
    if (this.log.seconds > mostSeconds)
      this.log.end({ kind: 'endless', line: scope.line, text: 'more than ten hours on the machine' });
  }

  /** Origins of the work offsets that the setup names or the run wrote, mm. */
  origins(scope: Scope, unit: number): Map<string, Point> {
    const wrote = this.log.written.map(({ key }) => key.slice(0, key.lastIndexOf('.')));
    const systems = new Set([...this.parts.setup.workOffsets.keys(), ...wrote]);
    const origins = new Map<string, Point>();
    for (const system of systems) {
      const first = offsetNumber(system);
      const at = (i: number) => this.number((first ?? 0) + i, scope) * unit;
      if (first !== null) origins.set(system, [at(0), at(1), at(2)]);
    }
    return origins;
  }

  private number(number: number, scope: Scope): number {
    const place = { line: scope.line, start: 0, end: 0 };
    const value = readParameter(String(number), scope.state, this, scope.dialect, place);
    return isNumber(value) ? value : Number.NaN;
  }

  private stop(line: number): void {
    const { log } = this;
    const { usualMessages } = this.parts;
    log.stops.push(line);
    if (usualMessages !== null && lastWords(log).some((said) => !usualMessages.has(said.line)))
      log.end({ kind: 'stop', line });
  }

  private zeroFor(line: number, state: State): ZeroPoint | null {
    const zero = this.zero === undefined ? zeroPoint(this.scopeOf(line, state)) : this.zero;
    if (this.keepsZero) this.zero = zero;
    return zero;
  }

  private scopeOf(line: number, state: State): Scope {
    return { state, world: this, dialect: this.parts.dialect, line };
  }
}

/** A motion code was not in force: the axes go straight all the same. */
function straight({ kind, from, to }: Motion): readonly Leg[] | null {
  if (kind !== 'unknown' || !from.every(isNumber) || !to.every(isNumber)) return null;
  return [{ kind: 'feed', to: to as number[], feed: null }];
}
