import type { Profile } from '../profile/profile.ts';
import type { Scope } from '../program/evaluate.ts';
import { activeOffset, unitScale } from '../program/parameters.ts';
import type { State } from '../program/state.ts';
import { restsOnUntested } from '../program/testedEarlier.ts';
import { lookedAt, scale, single, touchesOf, type Value } from '../program/value.ts';
import type { MachineEvent, Motion, OffsetWrite, TouchRequest, Use, World } from '../program/world.ts';
import type { DialectName } from '../syntax/dialect.ts';
import type { Place } from '../syntax/place.ts';
import { directionOf } from './approach.ts';
import type { CallChain, CallChains } from './callChains.ts';
import { judgeMotion, maybeLift } from './departures.ts';
import { forgetEarlier, forgetSettled, type Made, type Running, setMade, startFlow } from './flowing.ts';
import { descentOf } from './heights.ts';
import { changeSince, frameOf, isLatch, latchAfter } from './latch.ts';
import type { Departure, FailedUse } from './model.ts';
import { nearOf, sumsNear } from './near.ts';
import { placeLeftOut } from './placesLeftOut.ts';
import { positionTestsIn } from './positionTests.ts';
import type { Record } from './record.ts';
import { neighbourOf } from './sameSpot.ts';
import {
  holdsCoordinate,
  isKnownFailed,
  type LastTest,
  staleTestFor,
  testsPassedFailing,
} from './toldByTests.ts';
import { factsOf, isRotary, modesOf, singleAxis } from './touchFacts.ts';

type Direction = readonly [number, number, number];
type Leaving = Pick<Departure, 'kind' | 'component'> & {
  readonly by?: number | null;
  readonly maybeLift?: boolean;
};

/** The analysis as the interpreter's world: keeps book of touches along a path, and writes down on the last pass. */
export class Bookkeeping implements World {
  readonly assumedUnit: 'mm' | 'inch';
  readonly deletedBlocks = 'either';
  /** The path that runs now; set by the driver before each block. */
  flow: Running = startFlow('program');
  /** The name of the line that runs (see `followedText.ts`). */
  line = 0;
  chain: CallChain;
  /** Where things are written down; null: this run is not the last word. */
  record: Record | null = null;
  /** Where a place of a called file shows in the program's own text; set by the driver. */
  atHome: (place: Place) => Place = (place) => place;
  private readonly diameterName: string | null;

  constructor(
    profile: Profile,
    private readonly chains: CallChains,
    private readonly dialect: DialectName,
  ) {
    this.chain = chains.chain([], false);
    this.assumedUnit = profile.units;
    this.diameterName =
      profile.effectiveDiameterParameter
        ?.replace(/^#/, '')
        .replace(/^<(.*)>$/, '$1')
        .toLowerCase() ?? null;
  }

  parameter(name: string, state: State, place: Place): Value | null {
    const source = name === this.diameterName ? 'parameter' : name === '5410' ? 'tool-table' : null;
    if (source === null) return null;
    return single({ kind: 'diameter', key: `d:${source}`, source, place }, unitScale(state, this));
  }

  touch(request: TouchRequest, state: State): void {
    const id = this.chains.idOf(this.line, this.chain);
    const perMm = unitScale(state, this);
    const direction = directionOf(request, this.flow.made, perMm);
    this.leave(request, id, direction, perMm);
    this.record?.facts.set(id, factsOf(request, state, direction, perMm));
    const axis = singleAxis(request);
    const staleTest = request.alarms ? null : staleTestFor(this.flow, id, { direction, axis });
    this.flow.lastTest = staleTest;
    const neighbour = neighbourOf(request, direction, this.flow, perMm);
    if (neighbour !== null) this.record?.near(id, neighbour);
    const before = this.flow.made.get(id);
    if (before) forgetEarlier(state, id, before.tested);
    // Inside a call the caller's own values are out of sight.
    if (this.chain.calls.length === 0) forgetSettled(this.flow);
    this.flow.contact = new Map(request.away ? [] : [[id, request.alarms ? 'met' : 'maybe']]);
    this.flow.latch = latchAfter(id, request, this.flow, frameOf(this.scope(state)));
    setMade(this.flow, id, {
      tested: request.alarms,
      met: false,
      told: [],
      staleTest,
      arithmetic: null,
      from: request.from.map((v, i) => (isRotary(i) ? v : scale(v, 1 / perMm))),
      to: request.to.map((v, i) => (isRotary(i) ? v : scale(v, 1 / perMm))),
      direction,
      axis,
    });
    for (let i = 0; i < 9; i++) this.latch(id, i, request, state, perMm);
    state.success = single({ kind: 'success', key: `t:${id}`, touch: id });
  }

  motion(motion: Motion, state: State): void {
    const perMm = unitScale(state, this);
    for (const touch of this.flow.contact.keys()) {
      const made = this.flow.made.get(touch);
      if (!made) continue;
      const what = judgeMotion(motion, touch, made.direction, made.axis, this.flow.made, perMm);
      this.depart(touch, motion.place, { ...what, maybeLift: maybeLift(motion) });
    }
    this.flow.contact = new Map();
    const down = this.record ? descentOf(motion, perMm) : 0;
    if (down > 1e-6) this.record?.descents.push({ place: motion.place, mm: down });
  }

  latchRead(axis: number, place: Place, state: State): void {
    const { latch } = this.flow;
    if (!this.record || !isLatch(latch)) return;
    const scope = this.scope(state);
    const since = changeSince(latch, axis, frameOf(scope), scope);
    if (since) this.record.staleReads.push({ touch: latch.touch, axis, place, since });
  }

  used(value: Value, use: Use, place: Place, state: State): void {
    if (typeof value === 'number' || use === 'test') return;
    const touches = touchesOf(value);
    const { latch } = this.flow;
    if (isLatch(latch) && !latch.taken && touches.has(latch.touch))
      this.flow.latch = { ...latch, taken: true };
    if (use === 'copy' || use === 'argument') return;
    for (const touch of touches) {
      this.record?.coordinatesUsed.add(touch);
      const made = this.flow.made.get(touch);
      if (!made) continue;
      const shown = this.atHome(place);
      if (made.tested) this.usedPastTest(touch, made, value, { how: use, place: shown }, state);
      else if (!restsOnUntested(value, touch)) continue;
      else if (use === 'arithmetic')
        setMade(this.flow, touch, { ...made, arithmetic: made.arithmetic ?? shown });
      else this.record?.useUntested({ touch, place: shown, how: use, staleTest: this.shown(made.staleTest) });
    }
    if (use === 'output') this.record?.reach(touches, 'output');
    if (use === 'offset') this.record?.reach(touches, 'datum');
    if (use === 'return') this.record?.reach(touches, 'caller');
  }

  offset(write: OffsetWrite, state: State): void {
    const touches = touchesOf(write.origin);
    if (touches.size === 0) {
      const left = placeLeftOut(write, state);
      if (left) this.record?.placesLeftOut.push(left);
      return;
    }
    this.used(write.origin, 'offset', write.place, state);
    if (!this.record) return;
    this.record.reach(touches, 'datum');
    const perMm = unitScale(state, this);
    const { axis } = write;
    const origin = isRotary(axis) ? write.origin : scale(write.origin, 1 / perMm);
    const { made } = this.flow;
    const sight = { made, perMm, dialect: this.dialect };
    const near = axis === 0 || axis === 1 ? nearOf(origin, { axis, ...sight }) : null;
    const sums = sumsNear(origin, sight);
    this.record.datums.push({ write, origin, activeOffset: activeOffset(state), near, sums });
  }

  toolChange(place: Place, _state: State): void {
    this.endContact(place, 'tool-change');
  }

  /** A tool change or the program's end while the tip rests on a surface. */
  endContact(place: Place, kind: 'tool-change' | 'program-end'): void {
    for (const touch of this.flow.contact.keys()) this.depart(touch, place, { kind, component: null });
    this.flow.contact = new Map();
  }

  event(event: MachineEvent): void {
    if (event.kind === 'stop' || (event.kind === 'message' && event.number !== null)) this.stopForOperator();
  }

  /** Somebody looks at the machine before the program goes on: that handles what failed. */
  stopForOperator(): void {
    for (const [touch, made] of this.flow.made)
      if (made.told.length > 0) setMade(this.flow, touch, { ...made, told: [] });
  }

  /** An alarm ends the path: with the tip against something, or on one side of the test of a touch. */
  alarm(place: Place): void {
    if (!this.record) return;
    const { latch } = this.flow;
    const last = isLatch(latch) ? latch.touch : null;
    const exitOf = (touch: number) => ({
      touch,
      place: this.atHome(place),
      modes: modesOf(this.flow.state),
      isLast: touch === last,
    });
    for (const [touch, contact] of this.flow.contact)
      if (contact === 'met') this.record.endInAlarm({ ...exitOf(touch), side: 'against' });
    for (const [touch, { told }] of this.flow.made) {
      const [first, ...others] = told;
      if (first && others.every(({ side }) => side === first.side))
        this.record.endInAlarm({ ...exitOf(touch), side: first.side });
    }
  }

  /** Arithmetic on results that nothing tested up to the end of the path. */
  endPath(): void {
    for (const [touch, { tested, arithmetic, staleTest }] of this.flow.made)
      if (!tested && arithmetic)
        this.record?.useUntested({
          touch,
          place: arithmetic,
          how: 'arithmetic',
          staleTest: this.shown(staleTest),
        });
  }

  /** Results left in parameters, or returned, where a subroutine ends whose caller is not in the file. */
  handOver(values: Iterable<Value>): void {
    for (const value of values) this.record?.reach(touchesOf(value), 'caller');
  }

  fault(): void {}

  private shown(test: LastTest | null): LastTest | null {
    return test && { ...test, place: this.atHome(test.place) };
  }

  /**
   * A result used where a test was made and the path lies on its failing side all the same. Where it has failed for
   * certain a message about it, or a way back from where it ended, is how a failure is handled.
   */
  private usedPastTest(
    touch: number,
    made: Made,
    value: Value,
    { how, place }: Pick<FailedUse, 'how' | 'place'>,
    state: State,
  ): void {
    const tests = testsPassedFailing(made.told);
    if (tests.length === 0 || !this.record || !holdsCoordinate(value, touch)) return;
    if (how !== 'offset' && (isKnownFailed(made) || (how !== 'motion' && how !== 'output'))) return;
    // Where the axes still stand by the touch, this is the way back from it.
    if (how === 'motion' && state.position.some((each) => touchesOf(each).has(touch))) return;
    for (const test of tests) this.record.useFailed({ touch, test: this.atHome(test), place, how });
  }

  /** A condition that the path comes to, before it divides. */
  asked(condition: Value, place: Place): void {
    if (this.record && typeof condition !== 'number' && lookedAt(condition).size > 0)
      this.record.tests.push(...positionTestsIn(condition, place, this.flow));
  }

  private scope(state: State): Scope {
    return { state, world: this, dialect: this.dialect, line: this.line };
  }

  private latch(id: number, i: number, request: TouchRequest, state: State, perMm: number): void {
    const unit = isRotary(i) ? 1 : perMm;
    const position = state.position[i] ?? 0;
    if (!request.axes.includes(i)) {
      state.latched[i] = scale(position, 1 / unit);
      return;
    }
    state.latched[i] = single({ kind: 'latched', key: `m:${id}:${i}`, touch: id, axis: i });
    state.position[i] = single({ kind: 'stopped', key: `p:${id}:${i}`, touch: id, axis: i }, unit);
  }

  /** A touch that follows a touch: on along the approach, or something else. */
  private leave(request: TouchRequest, by: number, direction: Direction | null, perMm: number): void {
    for (const touch of this.flow.contact.keys()) {
      const made = this.flow.made.get(touch);
      if (!made) continue;
      const n = made.direction;
      const what: Pick<Departure, 'kind' | 'component'> = request.away
        ? { kind: 'away-touch', component: null }
        : n && direction && dot(n, direction) > 0.99
          ? { kind: 'touch-again', component: null }
          : judgeMotion({ ...request, kind: 'feed' }, touch, n, made.axis, this.flow.made, perMm);
      // Where a probe move must not start tripped, it does not get as far as to leave the surface.
      const kind = what.kind === 'retract' && this.dialect === 'rs274ngc' ? 'touch-back' : what.kind;
      this.depart(touch, request.place, { ...what, kind, by });
    }
  }

  private depart(
    touch: number,
    place: Place,
    { kind, component, by = null, maybeLift = false }: Leaving,
  ): void {
    const contact = this.flow.contact.get(touch) ?? 'maybe';
    const isRelied = this.flow.made.get(touch)?.tested === false && !maybeLift;
    const shown = this.atHome(place);
    this.record?.departures.push({ touch, place: shown, at: place, contact, isRelied, by, kind, component });
  }
}

function dot(a: Direction, b: Direction): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}
