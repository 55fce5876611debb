import type { Point } from '../part/solid.ts';

/** One touch as it went; mm, machine coordinates. Positions are the ball's centre in x and y and the tip in z. */
export interface TouchRecord {
  /** 0-based line of the joined program. */
  readonly line: number;
  readonly code: string;
  /** Unit vector of the programmed motion. */
  readonly direction: Point;
  readonly from: Point;
  readonly latched: Point;
  readonly tripped: boolean;
  /** Where the surface was met, null where nothing was met, and the solid that it belongs to. */
  readonly surface: Point | null;
  readonly solid: number | null;
  /** Unit vector to the surface at first contact. */
  readonly normal: Point | null;
  /** Way past the trip, 0 where it did not trip. */
  readonly overtravel: number;
}

export interface Collision {
  readonly line: number;
  readonly point: Point;
  readonly with: 'tip' | 'stem' | 'overtravel';
}

/** How a run ended, and the words of it. */
export type RunEnd =
  | { readonly kind: 'program-end'; readonly line: number }
  /** An alarm of the control or of the program. */
  | { readonly kind: 'alarm'; readonly line: number; readonly text: string }
  /** A stop (M0, a message stop) behind a message that the undisturbed run does not show. */
  | { readonly kind: 'stop'; readonly line: number }
  | { readonly kind: 'endless'; readonly line: number; readonly text: string }
  | { readonly kind: 'collision'; readonly line: number }
  /** The run needs what is not modelled or not at hand. */
  | { readonly kind: 'not-followed'; readonly line: number; readonly text: string };

export interface Told {
  readonly line: number;
  readonly text: string;
  /** How many work offsets were written before it. */
  readonly written: number;
}

/** A work offset written: `key` as in `G54.x`; mm, degrees for rotary axes. */
export interface DatumWritten {
  readonly line: number;
  readonly key: string;
  readonly value: number;
  /** How many touches came before it. */
  readonly touches: number;
  /** How much of the tool's length by the table was not in force, mm: a Z that is written then holds it. */
  readonly lengthLeftOut: number;
}

/** All that one run left behind. */
export interface RunRecord {
  readonly end: RunEnd;
  /** The line of the main program that was running at the end: of the call, within what is called. */
  readonly endLine: number;
  readonly touches: readonly TouchRecord[];
  readonly collisions: readonly Collision[];
  readonly messages: readonly Told[];
  readonly stops: readonly number[];
  /** Lines that kept a coordinate of a touch that met nothing. */
  readonly kept: readonly number[];
  readonly written: readonly DatumWritten[];
  /** The ball touches the part where the run ended. */
  readonly inContact: boolean;
  /** Whether what was to go wrong had an occasion to. */
  readonly applied: boolean;
  /** System to origin, mm. */
  readonly workOffsets: ReadonlyMap<string, Point>;
  /** Name with its #, value as the program holds it. */
  readonly parameters: ReadonlyMap<string, number>;
  /** mm that one unit of the program is at the end. */
  readonly unit: number;
  /** What the rehearsal had to leave out or take for granted. */
  readonly cautions: ReadonlySet<string>;
  readonly blocks: number;
  /** Time on the machine, s. */
  readonly seconds: number;
}
