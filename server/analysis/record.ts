import type { Value } from '../program/value.ts';
import type { OffsetWrite } from '../program/world.ts';
import type { Place } from '../syntax/place.ts';
import type { Departure, Handover, Modes, NotKnown, RotaryAxis, TouchFeed, UntestedUse } from './model.ts';

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
  readonly rotary: readonly { readonly axis: RotaryAxis; readonly moves: 'yes' | 'unknown' }[];
}

export interface DatumWrite {
  readonly write: OffsetWrite;
  /** Where the new origin lies, mm. */
  readonly origin: Value;
  readonly activeOffset: string | null;
}

/** Of a touch by its id. */
export interface WrittenDeparture extends Omit<Departure, 'touch'> {
  readonly touch: number;
  /** The place itself, where `place` is the call that leads to it. */
  readonly at: Place;
  /** A test has shown that the touch met its surface. */
  readonly met: boolean;
  /** Nothing has looked whether the touch met anything, and what comes next is no mere lift. */
  readonly isRelied: boolean;
  /** The touch that comes next, where it is one. */
  readonly by: number | null;
}

/** What is written down of a path. Ids of touches stand for the touches, names of lines (see `followedText.ts`) for the lines. */
export class Record {
  readonly facts = new Map<number, TouchFacts>();
  readonly departures: WrittenDeparture[] = [];
  readonly untested: (Omit<UntestedUse, 'touch'> & { readonly touch: number })[] = [];
  readonly datums: DatumWrite[] = [];
  readonly notKnown: NotKnown[] = [];
  readonly handovers: Handover[] = [];
  readonly reaches = new Map<number, Set<'datum' | 'output' | 'caller'>>();
  /** Touches whose coordinates something uses: a non-alarming touch that is not among them is guarded travel. */
  readonly coordinatesUsed = new Set<number>();
  private readonly untestedKeys = new Set<string>();

  get isEmpty(): boolean {
    return (
      this.facts.size === 0 &&
      this.departures.length === 0 &&
      this.untested.length === 0 &&
      this.datums.length === 0 &&
      this.notKnown.length === 0 &&
      this.handovers.length === 0 &&
      this.reaches.size === 0 &&
      this.coordinatesUsed.size === 0
    );
  }

  /** Goes on with what was written down elsewhere. */
  add(other: Record): void {
    for (const [touch, facts] of other.facts) this.facts.set(touch, facts);
    for (const departure of other.departures) this.departures.push(departure);
    for (const { touch, place, how } of other.untested) this.useUntested(touch, place, how);
    for (const datum of other.datums) this.datums.push(datum);
    for (const reason of other.notKnown) this.notKnown.push(reason);
    for (const handover of other.handovers) this.handovers.push(handover);
    for (const [touch, where] of other.reaches) for (const each of where) this.reach([touch], each);
    for (const touch of other.coordinatesUsed) this.coordinatesUsed.add(touch);
  }

  /** Once for each place, however many values of it rest on the touch. */
  useUntested(touch: number, place: Place, how: UntestedUse['how']): void {
    const key = `${touch}:${place.line}:${how}`;
    if (this.untestedKeys.has(key)) return;
    this.untestedKeys.add(key);
    this.untested.push({ touch, place, how });
  }

  reach(touches: Iterable<number>, where: 'datum' | 'output' | 'caller'): void {
    for (const touch of touches) {
      const known = this.reaches.get(touch);
      if (known) known.add(where);
      else this.reaches.set(touch, new Set([where]));
    }
  }
}
