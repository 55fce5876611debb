import type { Place } from '../syntax/place.ts';
import type { ReadBlock } from './readBlock.ts';
import type { State } from './state.ts';
import type { Value } from './value.ts';

export type TouchCode = 'G38.2' | 'G38.3' | 'G38.4' | 'G38.5' | 'G31';

export interface TouchRequest {
  readonly code: TouchCode;
  readonly alarms: boolean;
  readonly away: boolean;
  readonly place: Place;
  /** Work coordinates, program units; index as in axisLetters. */
  readonly from: readonly Value[];
  readonly to: readonly Value[];
  /** Indices of the axes that the block names. */
  readonly axes: readonly number[];
}

export interface Motion {
  readonly kind: 'rapid' | 'feed' | 'arc' | 'cycle' | 'machine-coordinates' | 'reference' | 'unknown';
  readonly place: Place;
  readonly from: readonly Value[];
  readonly to: readonly Value[];
  readonly axes: readonly number[];
}

export interface OffsetWrite {
  readonly place: Place;
  /** `G54`, `G92`, `G52`, or `active` where the system in force is not known. */
  readonly system: string;
  readonly axis: number;
  /** Where the new origin lies along the axis, program units, up to a constant that no touch enters. */
  readonly origin: Value;
  readonly form: 'G10 L2' | 'G10 L20' | 'G92' | 'G52' | 'parameter';
}

/** What a value is used for, when a block uses one. A copy from parameter to parameter is no use. */
export type Use = 'copy' | 'arithmetic' | 'motion' | 'offset' | 'output' | 'return' | 'argument' | 'test';

/** What the interpreter asks and tells while it runs a block: the machine in a rehearsal, the bookkeeping in the analysis. */
export interface World {
  /** Unit that holds while no G20 or G21 was met. */
  readonly assumedUnit: 'mm' | 'inch';
  /** The words of a block, read and not yet in effect. Only a machine needs them whole. */
  block?(read: ReadBlock, state: State): void;
  /** A numbered system parameter as the machine holds it, before the interpreter's own reading; null: it has none. */
  system?(number: number, state: State): Value | null;
  /** Whether a parameter was ever set, which only a run on numbers knows. */
  exists?(name: string, state: State): boolean;
  /** A parameter that the program has not set; null where the world knows nothing of it. */
  parameter(name: string, state: State, place: Place): Value | null;
  /** Must leave position, latched coordinates and success in the state. */
  touch(request: TouchRequest, state: State): void;
  /** Called before the position changes. */
  motion(motion: Motion, state: State): void;
  used(value: Value, use: Use, place: Place, state: State): void;
  offset(write: OffsetWrite, state: State): void;
  toolChange(place: Place, state: State): void;
  /** A value that can't be computed: division by zero, a parameter index out of range. */
  fault(code: string, place: Place): void;
}
