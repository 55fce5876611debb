import type { Ending } from '../program/execute.ts';
import type { Flowing } from './flowing.ts';
import type { Record } from './record.ts';

/**
 * What some lines of one chunk did to what flowed into them. It rests on nothing but the lines and the flow: where both
 * are the same again, so is all else, and nothing is run.
 */
export interface Passage {
  /** The lines within their chunk and the calls that led there, as one number. */
  readonly key: number;
  readonly entry: Flowing;
  readonly exit: Flowing;
  readonly ending: Ending;
  /** The name of the line where it ended; of no use where it did not. */
  readonly endedAt: number;
  /** What is to be written down of it; null: nothing. */
  readonly record: Record | null;
  readonly steps: number;
}
