import type { Value } from '../program/value.ts';
import type { OffsetWrite } from '../program/world.ts';
import type { Place } from '../syntax/place.ts';
import type { Departure, Modes, NotKnown, RotaryAxis, TouchFeed, UntestedUse } from './model.ts';

/** A touch while the analysis runs: known by where it stands and the calls that lead there. */
export interface TouchSite {
  readonly id: number;
  readonly line: number;
  readonly calls: readonly number[];
  readonly openSubroutine: boolean;
}

/** What a touch looked like when it was reached, joined over all paths to it. */
export interface TouchFacts {
  readonly place: Place;
  readonly code: string;
  readonly alarms: boolean;
  readonly away: boolean;
  readonly modes: Modes;
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

/** What the last pass over the graphs writes down. Ids of touches stand for the touches themselves. */
export class Record {
  readonly sites: TouchSite[] = [];
  readonly facts = new Map<number, TouchFacts>();
  /** `met`: a test has shown that the touch met its surface. */
  readonly departures: (Omit<Departure, 'touch'> & { readonly touch: number; readonly met: boolean })[] = [];
  readonly untested: (Omit<UntestedUse, 'touch'> & { readonly touch: number })[] = [];
  readonly datums: DatumWrite[] = [];
  readonly notKnown: NotKnown[] = [];
  readonly reaches = new Map<number, Set<'datum' | 'output' | 'caller'>>();
  /** Touches whose coordinates something uses: a non-alarming touch that is not among them is guarded travel. */
  readonly coordinatesUsed = new Set<number>();
  private readonly untestedKeys = new Set<string>();
  private readonly ids = new Map<string, number>();

  /** The id of a touch: the same for the same line reached by the same calls. */
  idOf(line: number, calls: readonly number[], openSubroutine: boolean): number {
    const key = `${calls.join('>')}|${line}`;
    let id = this.ids.get(key);
    if (id === undefined) {
      id = this.sites.length;
      this.ids.set(key, id);
      this.sites.push({ id, line, calls: [...calls], openSubroutine });
    }
    return id;
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
