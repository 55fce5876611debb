import type { Point, Solid } from '../part/solid.ts';

/** What stands otherwise in one run than the setup says: nothing in the undisturbed one. */
export interface Disturbance {
  readonly solids: readonly Solid[];
  /** Machine position of the gauge line at the start, mm. */
  readonly start: Point;
  /** How much longer the tool is than its entry in the table, mm. */
  readonly lengthError: number;
  /** 2: the feed override at 200 %. */
  readonly override: number;
  readonly deadProbe: boolean;
  /** Numbers of touches, from 1. */
  readonly trippedBefore: readonly number[];
  readonly falseTrip: readonly number[];
  readonly stuckAfter: readonly number[];
}
