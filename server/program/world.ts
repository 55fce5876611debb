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

/**
 * A piece of a block's motion, on plain numbers. `to`: work coordinates and program units (degrees for A B C), index as
 * in axisLetters. `feed`: mm/min, or degrees/min where only rotary axes move; null where none is known.
 */
export type Leg =
  | { readonly kind: 'rapid'; readonly to: readonly number[] }
  | { readonly kind: 'feed'; readonly to: readonly number[]; readonly feed: number | null }
  | {
      readonly kind: 'arc';
      readonly to: readonly number[];
      readonly feed: number | null;
      /** Indices of the plane's axes: first, second (XY, ZX or YZ); all others move along in proportion. */
      readonly plane: readonly [number, number];
      /** Of the two axes, work coordinates. */
      readonly centre: readonly [number, number];
      readonly radius: number;
      /** Radians about the centre, from the first axis to the second positive; more than 2π for several turns. */
      readonly sweep: number;
    }
  | { readonly kind: 'dwell'; readonly seconds: number }
  /** M3, M4, M5, M19 inside a cycle; M0 where the operator is to act. */
  | { readonly kind: 'spindle' | 'stop'; readonly code: string };

export interface Motion {
  readonly kind: 'rapid' | 'feed' | 'arc' | 'cycle' | 'machine-coordinates' | 'reference' | 'unknown';
  readonly place: Place;
  readonly from: readonly Value[];
  /** Where the axis words lead: of a canned cycle the bottom of its last hole, of G28 and G30 the reference point. */
  readonly to: readonly Value[];
  readonly axes: readonly number[];
  /** G53: the words were machine coordinates; `to` is work coordinates all the same. */
  readonly machineCoordinates: boolean;
  /**
   * The way there piece by piece, from `from` on; null where a value of it is no plain number, or where the control's own
   * doings are not known (threading cycles). Ask before the state goes on.
   */
  legs(): readonly Leg[] | null;
}

export interface OffsetWrite {
  readonly place: Place;
  /** `G54`, `G92`, `G52`, `active` where the system in force is not known, `none` where P is of none. */
  readonly system: string;
  readonly axis: number;
  /** Where the new origin lies along the axis, program units, up to a constant that no touch enters. */
  readonly origin: Value;
  /** Where the origin of the work offset in force lay before, program units, without the common offset. */
  readonly before: Value;
  readonly form: 'G10 L2' | 'G10 L20' | 'G92' | 'G52' | 'parameter';
}

/** What a value is used for, when a block uses one. A copy from parameter to parameter is no use. */
export type Use = 'copy' | 'arithmetic' | 'motion' | 'offset' | 'output' | 'return' | 'argument' | 'test';

/** What a machine does beside moving. */
export type MachineEvent =
  | { readonly kind: 'dwell'; readonly seconds: Value }
  /** M0, M1, M60. */
  | { readonly kind: 'stop'; readonly code: string }
  /** A message to the operator: (MSG,…), #3006. `alarm`: #3000, (ABORT,…): the program ends. */
  | { readonly kind: 'message' | 'alarm'; readonly text: string; readonly number: Value | null };

/** What the interpreter asks and tells while it runs a block: the machine in a rehearsal, the bookkeeping in the analysis. */
export interface World {
  /** Unit that holds while no G20 or G21 was met. */
  readonly assumedUnit: 'mm' | 'inch';
  /** Blocks behind `/` (NISTIR 6556, 2.2.2): they run (also where absent), are skipped, or it is not known which. */
  readonly deletedBlocks?: 'run' | 'skip' | 'either';
  /** The words of a block, read and not yet in effect. Only a machine needs them whole. */
  block?(read: ReadBlock, state: State): void;
  /** A numbered system parameter as the machine holds it, before the interpreter's own reading; null: it has none. */
  system?(number: number, state: State): Value | null;
  /** The program reads a latched coordinate. */
  latchRead?(axis: number, place: Place, state: State): void;
  /** Whether a parameter was ever set, which only a run on numbers knows. */
  exists?(name: string, state: State): boolean;
  /**
   * A parameter that the program has not set; null where the world knows nothing of it. Numbers as a program writes them
   * ('100', '5221'), names without brackets ('_x'), and what no program can name: 'tool:3:z' (length or offset in the
   * tool table, mm), 'tool:3:diameter' (mm), 'reference:1:x' and 'reference:2:x' (G28, G30 of the macro family, machine
   * coordinates), 'shift:g92:x' and 'shift:g52:x'. Lengths in program units where not said otherwise.
   */
  parameter(name: string, state: State, place: Place): Value | null;
  /** Must leave position, latched coordinates (mm) and success (1 or 0) in the state. */
  touch(request: TouchRequest, state: State): void;
  /** Called before the position changes. */
  motion(motion: Motion, state: State): void;
  used(value: Value, use: Use, place: Place, state: State): void;
  offset(write: OffsetWrite, state: State): void;
  toolChange(place: Place, state: State): void;
  event?(event: MachineEvent, place: Place, state: State): void;
  /**
   * What the block asks for can't be done: a value that can't be computed ('division-by-zero', 'parameter-index' …), an
   * arc that is none ('arc-radius-mismatch' …), a cycle without its words ('cycle-without-r' …).
   */
  fault(code: string, place: Place): void;
}
