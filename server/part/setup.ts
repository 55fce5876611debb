import type { Point, Solid } from './solid.ts';

/** What the machine and the part are like before a program runs: mm and degrees, machine coordinates. */
export interface Setup {
  readonly units: 'mm' | 'inch';
  /** Machine position of the spindle's gauge line. */
  readonly start: Point;
  readonly spindle: number;
  /** In the spindle; null: none is named. */
  readonly tool: number | null;
  readonly tools: ReadonlyMap<number, { readonly length: number; readonly diameter: number | null }>;
  /** `G54` to its origin. */
  readonly workOffsets: ReadonlyMap<string, Point>;
  readonly solids: readonly Solid[];
  readonly uncertainty: {
    readonly x: number;
    readonly y: number;
    readonly z: number;
    readonly degrees: number;
  };
  /** `G54.x` or a parameter, `#100`, to what it should come to; mm, degrees for rotary axes. */
  readonly expect: ReadonlyMap<string, { readonly value: number; readonly tolerance: number }>;
  /** Values before the run, by name with its #, as the program would hold them. */
  readonly parameters: ReadonlyMap<string, number>;
  readonly wrongToolLength: number;
  readonly seed: number;
}
