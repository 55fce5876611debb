import type { KnownFeed } from '../program/feedsByPath.ts';
import type { SpindleStand } from '../program/spindle.ts';
import type { OffsetWrite } from '../program/world.ts';
import type { Place } from '../syntax/place.ts';
import type { FaceSpot } from './faceSpots.ts';
import type { Height } from './heights.ts';
import type { ResultUnit } from './unitOf.ts';

/**
 * Sets of codes that may be in force on some path, e.g. `units: ['G21']`. 'unset' = nothing before it on some path
 * set it (the program relies on what it finds); 'unknown' = the entry of a subroutine that nobody in the file calls, or
 * after something that the analysis can't follow: rules are quiet about it.
 */
export interface Modes {
  readonly units: readonly string[];
  readonly distance: readonly string[];
  readonly feedMode: readonly string[];
  readonly plane: readonly string[];
  readonly cutterCompensation: readonly string[];
  readonly toolLength: readonly string[];
  readonly workOffset: readonly string[];
  readonly motion: readonly string[];
  readonly spindle: readonly string[];
  readonly coolant: readonly string[];
  /** 'none' after its end, G92 or G52. */
  readonly offsetShift: readonly string[];
  /** 'turned' where the spindle ran since it was last oriented (M19). */
  readonly orientation: readonly string[];
}

export type LinearAxis = 'x' | 'y' | 'z';
export type RotaryAxis = 'a' | 'b' | 'c';

/** The feed in force at a touch. */
export interface TouchFeed {
  /** On some path no F came before, since the program's start. */
  readonly unset: boolean;
  /** mm/min where one value holds on all paths and the unit is known or assumed; else null. */
  readonly value: number | null;
  /** The F word that gave it, where it is one and stands in the same file. */
  readonly place: Place | null;
  /** Where paths differ: the known feeds, mm/min, slowest first. */
  readonly byPath: readonly KnownFeed[];
}

/** One touch: a G38.x or skip block, as reached by one chain of calls. */
export interface Touch {
  readonly id: number;
  /** Address of the called file that it stands in, whose lines `line` and `place` then are; null: the program itself. */
  readonly file: string | null;
  readonly line: number;
  /** The word that makes it a touch (its G word, or the axis words where the code is modal). */
  readonly place: Place;
  readonly code: string;
  /** A failure raises an alarm by itself (G38.2, G38.4). */
  readonly alarms: boolean;
  /** Away from the surface (G38.4, G38.5): the value at release is latched. */
  readonly away: boolean;
  /** Lines of the calls in the program itself that led here, outermost first; empty in the main program. */
  readonly calls: readonly number[];
  /** It stands in a subroutine that nobody in this file calls: what holds at its entry is unknown. */
  readonly openSubroutine: boolean;
  readonly modes: Modes;
  /** Known tools that are in the spindle on some path, and those whose length is in force. */
  readonly tools: readonly number[];
  readonly lengthsOf: readonly number[];
  /** The modes found when the block began, before its own words. */
  readonly feed: TouchFeed;
  /** Unit vector of the programmed motion in machine axes, towards the surface (n); null where unknown. */
  readonly direction: readonly [number, number, number] | null;
  /** The axis that it moves along, where it is one. */
  readonly axis: LinearAxis | null;
  /** Length of the programmed travel, mm; null where unknown. */
  readonly travel: number | null;
  readonly height: Height;
  readonly rotary: readonly { readonly axis: RotaryAxis; readonly moves: 'yes' | 'unknown' }[];
  readonly spindle: SpindleStand;
  /** Any axis of x, y, z is written (a touch with none is an error of its own). */
  readonly linearWords: boolean;
  /** Something computes with one of its coordinates, or moves, writes or prints by it. */
  readonly isUsed: boolean;
  /** No other touch at the same spot comes before it or after it. */
  readonly alone: boolean;
  /** Where its result ends up on some path. */
  readonly reaches: readonly ('datum' | 'output' | 'caller')[];
}

/** What comes next after a touch, on one path: the first motion, or the end. */
export interface Departure {
  readonly touch: Touch;
  readonly place: Place;
  readonly kind:
    | 'retract' // has a component against the approach
    | 'further-in' // a component along the approach
    | 'sideways' // none, but moves along the surface
    | 'touch-again' // another touch in the same direction (not passing through by G38.4)
    | 'touch-back' // another touch, away from the surface, where none may start with the probe tripped
    | 'away-touch'
    | 'machine-coordinates' // G53, G28, G30
    | 'tool-change'
    | 'program-end'
    | 'unknown';
  /** mm along n (negative: away from the surface), where known. */
  readonly component: number | null;
}

/** Where a subroutine gives back to its caller, or the program ends: once for each chain of calls that leads there. */
export interface Handover {
  readonly kind: 'return' | 'program-end';
  readonly place: Place;
  /** The line that names the procedure, -1 for a main program without one. */
  readonly header: number;
  /** Lines of the calls in the program itself that led here, outermost first. */
  readonly calls: readonly number[];
  /** A subroutine that nobody in this file calls. */
  readonly openSubroutine: boolean;
  readonly before: Modes;
  readonly after: Modes;
  /** Shifts of the work coordinates in force: found, and left behind. */
  readonly shiftsBefore: readonly ('G92' | 'G52')[];
  readonly shifts: readonly ('G92' | 'G52')[];
}

/** A result of a non-alarming touch used on a path on which nothing tested for success. */
export interface UntestedUse {
  readonly touch: Touch;
  readonly place: Place;
  readonly how: 'arithmetic' | 'motion' | 'offset' | 'output' | 'return';
  /** A test that should have looked at this touch, and saw an older result. */
  readonly staleTest: StaleTest | null;
}

/** A test that stands before the touch it should test, or looks at what was kept from before it. */
export interface StaleTest {
  readonly place: Place;
  /** The touch whose result it sees; null where none was made before. The same block: an earlier pass of a loop. */
  readonly sees: Touch | null;
}

/** A result used on the failing side of a test of its touch, or on both sides of one that tells nothing apart. */
export interface FailedUse {
  readonly touch: Touch;
  readonly test: Place;
  readonly place: Place;
  readonly how: UntestedUse['how'];
}

/** An alarm that ends a path. */
export interface AlarmExit {
  readonly touch: Touch;
  readonly place: Place;
  readonly modes: Modes;
  /** The tip rests against what the touch met, which is known; or the side of its test that the path lies on. */
  readonly side: 'against' | 'failed' | 'met' | 'true' | 'false';
  /** The touch is guarded travel: where it met something is its failing side. */
  readonly isGuarded: boolean;
}

/** What gave a latched coordinate another meaning before it was read. `apart`: mm or degrees that it is off by. */
export type Staleness =
  | { readonly kind: 'units'; readonly from: string; readonly to: string }
  | {
      readonly kind: 'selected';
      readonly from: string;
      readonly to: string;
      readonly apart: number | null;
    }
  | { readonly kind: 'written'; readonly system: string; readonly apart: number | null }
  | { readonly kind: 'shifted' | 'tool-length'; readonly apart: number | null }
  /** An earlier touch along the axis, whose own coordinate nothing had taken. */
  | { readonly kind: 'another-touch'; readonly earlier: Touch };

/** A latched coordinate read after something that changed its meaning. */
export interface StaleRead {
  /** The last touch before it. */
  readonly touch: Touch;
  readonly axis: LinearAxis | RotaryAxis;
  readonly place: Place;
  readonly since: Staleness;
}

/** A plain motion, G0 or G1, that goes down by so many mm. */
export interface Descent {
  readonly place: Place;
  readonly mm: number;
}

/** A condition that compares where a touch latched, or came to rest, with something. */
export interface PositionTest {
  readonly touch: Touch;
  readonly axis: LinearAxis | RotaryAxis;
  readonly place: Place;
  /** For equality; within a distance to either side; on one side of a bound; something else about the touch. */
  readonly form: 'equal' | 'distance' | 'side' | 'other';
  /** mm or degrees: the tolerance, or of a 'side' how far beyond the end of travel the bound lies along the axis. */
  readonly margin: number | null;
  /** Of a 'side': the sign of the motions whose contact it tells from their end. */
  readonly tells: 1 | -1 | null;
  /** The sign of the motion on the axis, where it is known. */
  readonly towards: 1 | -1 | null;
  /** Parameters that the length of the motion rests on. */
  readonly restsOn: readonly string[];
}

/** c_i·m_i of error-model.md section 4. */
export interface Term {
  readonly touch: Touch;
  readonly axis: LinearAxis | RotaryAxis;
  readonly coefficient: number;
  /** n_i, the approach sign on the axis that is read; null where unknown. */
  readonly sign: number | null;
  /** The latched coordinate, or where the axis came to rest after it. */
  readonly from: 'latched' | 'stopped';
}

/** c_D·D: where the diameter came from. */
export interface DiameterUse {
  readonly coefficient: number;
  /** mm; null where the program reads it from a place that the file does not show. */
  readonly value: number | null;
  readonly source: 'effective' | 'nominal' | 'outdated' | 'wrong-unit' | 'tool-table' | 'parameter';
  readonly place: Place;
}

/** A number that a value adds to its touches: coefficient·value, mm. */
export interface ConstantUse {
  readonly coefficient: number;
  readonly value: number;
  readonly place: Place;
}

/** Where a datum goes when the part lies elsewhere. */
export interface Following {
  readonly form: OffsetWrite['form'];
  /** mm that it moves by for each mm that the part, and the tip's start before it, lies further on. */
  readonly share: number;
  /** The same for a part that lies further on along the other of X and Y. */
  readonly across: number;
  /** The work offset that the touches were measured in, where it is one and still in force. */
  readonly measuredIn: string | null;
  /**
   * Origin that the value holds beside the touches: of that offset, of another one, of none, or what a number that is of
   * no offset reads for one; null where it need not.
   */
  readonly origin: 'own' | 'other' | 'none' | 'beside' | null;
}

/** A value derived from touches that reaches a datum, on one path or joined over all. */
export interface Datum {
  /** Address of the called file that it stands in; null: the program itself. */
  readonly file: string | null;
  readonly line: number;
  /** The word or setting that writes it. */
  readonly place: Place;
  /** `G54.x` … `G59.3.c`, `G92.z`; `active.x` where the offset in force is not known, `none.x` where P is of none. */
  readonly target: string;
  /** null: not known yet, see `reason`. */
  readonly terms: readonly Term[] | null;
  readonly diameters: readonly DiameterUse[];
  /** Numbers added to the touches that are no diameter of this probe. */
  readonly constants: readonly ConstantUse[];
  /** Something enters whose value the file does not show, other than origins and positions: it may hold a compensation. */
  readonly restsOnInputs: boolean;
  /** How it follows the part; null where that is not known. */
  readonly following: Following | null;
  /** Why there are no terms: a loop, an unknown call, a product of two unknowns, paths that differ. */
  readonly reason: string | null;
  /**
   * Of a value that is no sum of touches: the sums that it comes close to where the touches are expected, once for each
   * guess at what the file does not show. What does not hold for all of them is not known.
   */
  readonly near: readonly Datum[];
  /** Of a value that is no sum: the one that changes as it does where the touches are expected; null where that is not known. */
  readonly slopes: Sum | null;
  readonly unit: ResultUnit;
  /**
   * Where on a sloping face it is taken, mm in the work coordinates in force; once for each guess at what the file does not
   * show, empty where it is taken on none.
   */
  readonly spots: readonly FaceSpot[];
  /**
   * Of a parameter that is a multiple of ABS of a sum: that multiple of the sum, where it is above 0 wherever the touches
   * are expected, so that ABS does nothing; else null.
   */
  readonly magnitude: Datum | null;
}

/** What a value is made of: touches, the diameter, constants. */
export type Sum = Pick<Datum, 'diameters' | 'constants' | 'restsOnInputs'> & {
  readonly terms: readonly Term[];
};

/** A number that G10 L2 writes to the work offset in force, in an axis that stands where touches took it. */
export interface PlaceLeftOut {
  readonly place: Place;
  readonly axis: LinearAxis | RotaryAxis;
  readonly touches: readonly Touch[];
}

/** Something of the program's flow that doesn't fit together; `unmatched-flow` words it. */
export interface FlowFault {
  readonly place: Place;
  readonly code:
    | 'missing-end' // if, while, sub, do, repeat, DOm without its end
    | 'missing-start' // an end, else or elseif without its start
    | 'missing-label' // a GOTO to no N
    | 'endsub-inside' // endsub inside an if or a loop
    | 'wrong-keyword' // endif closes a while, or labels differ
    | 'same-number' // DOm inside a DOm
    | 'outside-loop'; // break or continue outside any loop
  readonly detail: string;
  /** The place of the other half, where there is one. */
  readonly other: Place | null;
}

/** A place where the analysis stopped following, said aloud instead of an empty list. */
export interface NotKnown {
  readonly place: Place;
  readonly reason: string;
}
