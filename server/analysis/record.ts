import type { SpindleStand } from '../program/spindle.ts';
import type { Value } from '../program/value.ts';
import type { OffsetWrite } from '../program/world.ts';
import type { Place } from '../syntax/place.ts';
import type { Contact } from './flowing.ts';
import type { Height } from './heights.ts';
import type { ChangeSince } from './latch.ts';
import type {
  AlarmExit,
  Departure,
  Descent,
  FailedUse,
  Handover,
  Modes,
  NotKnown,
  RotaryAxis,
  TouchFeed,
  UntestedUse,
} from './model.ts';
import type { Near } from './near.ts';
import type { PositionTestWritten } from './positionTests.ts';
import type { LastTest } from './toldByTests.ts';

/** What a touch looked like when it was reached, joined over all paths to it. */
export interface TouchFacts {
  readonly place: Place;
  readonly code: string;
  readonly alarms: boolean;
  readonly away: boolean;
  readonly modes: Modes;
  readonly tools: readonly number[];
  readonly lengthsOf: readonly number[];
  readonly feed: TouchFeed;
  readonly direction: readonly [number, number, number] | null;
  readonly axes: readonly number[];
  readonly travel: number | null;
  readonly height: Height;
  readonly rotary: readonly { readonly axis: RotaryAxis; readonly moves: 'yes' | 'unknown' }[];
  readonly spindle: SpindleStand;
}

export interface DatumWrite {
  readonly write: OffsetWrite;
  /** Where the new origin lies, mm. */
  readonly origin: Value;
  readonly activeOffset: string | null;
  /** What the origin is near where the touches are expected, where it is no sum of them. */
  readonly near: Near | null;
  /** As `sumsNear`. */
  readonly sums: readonly Value[];
}

/** A number written to the work offset in force, in an axis that stands where touches took it. */
export interface PlaceLeftOut {
  readonly place: Place;
  readonly axis: number;
  readonly touches: readonly number[];
}

/** Of a touch by its id. */
export interface WrittenDeparture extends Omit<Departure, 'touch'> {
  readonly touch: number;
  /** The place itself, where `place` is the call that leads to it. */
  readonly at: Place;
  readonly contact: Contact;
  /** Nothing has looked whether the touch met anything, and what comes next is no mere lift. */
  readonly isRelied: boolean;
  /** The touch that comes next, where it is one. */
  readonly by: number | null;
}

export interface WrittenUntested extends Pick<UntestedUse, 'place' | 'how'> {
  readonly touch: number;
  readonly staleTest: LastTest | null;
}

type OfTouch<T> = Omit<T, 'touch'> & { readonly touch: number };

/** `isLast`: no other touch came behind it on the path. */
type WrittenAlarm = OfTouch<Omit<AlarmExit, 'isGuarded'>> & { readonly isLast: boolean };

/** A latched coordinate read after its meaning had changed. */
export interface StaleReadWritten {
  readonly touch: number;
  readonly axis: number;
  readonly place: Place;
  readonly since: ChangeSince;
}

/** What is written down of a path. Ids of touches stand for the touches, names of lines (see `followedText.ts`) for the lines. */
export class Record {
  readonly facts = new Map<number, TouchFacts>();
  readonly departures: WrittenDeparture[] = [];
  readonly untested: WrittenUntested[] = [];
  readonly failedUses: OfTouch<FailedUse>[] = [];
  readonly alarms: WrittenAlarm[] = [];
  readonly datums: DatumWrite[] = [];
  readonly placesLeftOut: PlaceLeftOut[] = [];
  readonly notKnown: NotKnown[] = [];
  readonly handovers: Handover[] = [];
  readonly reaches = new Map<number, Set<'datum' | 'output' | 'caller'>>();
  /** Touches whose coordinates something uses: a non-alarming touch that is not among them is guarded travel. */
  readonly coordinatesUsed = new Set<number>();
  private readonly keys = new Set<string>();
  readonly staleReads: StaleReadWritten[] = [];
  readonly tests: PositionTestWritten[] = [];
  /** Plain motions that go down by so many mm. */
  readonly descents: Descent[] = [];
  /** Touches that may stand next to another at the same spot. */
  readonly notAlone = new Set<number>();

  get isEmpty(): boolean {
    return (
      this.facts.size === 0 &&
      this.departures.length === 0 &&
      this.untested.length === 0 &&
      this.failedUses.length === 0 &&
      this.alarms.length === 0 &&
      this.datums.length === 0 &&
      this.placesLeftOut.length === 0 &&
      this.notKnown.length === 0 &&
      this.handovers.length === 0 &&
      this.reaches.size === 0 &&
      this.coordinatesUsed.size === 0 &&
      this.staleReads.length === 0 &&
      this.tests.length === 0 &&
      this.descents.length === 0 &&
      this.notAlone.size === 0
    );
  }

  /** Goes on with what was written down elsewhere. */
  add(other: Record): void {
    for (const [touch, facts] of other.facts) this.facts.set(touch, facts);
    for (const departure of other.departures) this.departures.push(departure);
    for (const use of other.untested) this.useUntested(use);
    for (const use of other.failedUses) this.useFailed(use);
    for (const exit of other.alarms) this.endInAlarm(exit);
    for (const datum of other.datums) this.datums.push(datum);
    for (const left of other.placesLeftOut) this.placesLeftOut.push(left);
    for (const reason of other.notKnown) this.notKnown.push(reason);
    for (const handover of other.handovers) this.handovers.push(handover);
    for (const [touch, where] of other.reaches) for (const each of where) this.reach([touch], each);
    for (const touch of other.coordinatesUsed) this.coordinatesUsed.add(touch);
    for (const read of other.staleReads) this.staleReads.push(read);
    for (const test of other.tests) this.tests.push(test);
    for (const descent of other.descents) this.descents.push(descent);
    for (const touch of other.notAlone) this.notAlone.add(touch);
  }

  /** Once for each place, however many values of it rest on the touch. */
  useUntested(use: WrittenUntested): void {
    if (this.isNew(`${use.touch}:${use.place.line}:${use.how}`)) this.untested.push(use);
  }

  useFailed(use: OfTouch<FailedUse>): void {
    const { touch, test, place, how } = use;
    if (this.isNew(`failed:${touch}:${test.line}:${test.start}:${place.line}:${how}`))
      this.failedUses.push(use);
  }

  endInAlarm(exit: WrittenAlarm): void {
    if (this.isNew(`alarm:${exit.touch}:${exit.place.line}:${exit.side}`)) this.alarms.push(exit);
  }

  private isNew(key: string): boolean {
    return this.keys.size < this.keys.add(key).size;
  }

  /** Two touches at one spot, one after the other; 'unknown' where it can't be told which came before. */
  near(touch: number, before: number | 'unknown'): void {
    this.notAlone.add(touch);
    if (before !== 'unknown') this.notAlone.add(before);
  }

  reach(touches: Iterable<number>, where: 'datum' | 'output' | 'caller'): void {
    for (const touch of touches) {
      const known = this.reaches.get(touch);
      if (known) known.add(where);
      else this.reaches.set(touch, new Set([where]));
    }
  }
}
