import type { Flowing } from './flowing.ts';
import type { FollowedText } from './followedText.ts';
import type { Datum, Touch } from './model.ts';
import type { Record } from './record.ts';

type Touches = ReadonlyMap<number, Touch>;

interface Derived {
  readonly flows: readonly Flowing[];
  readonly touches: Touches;
  readonly moves: number;
  readonly datums: readonly Datum[];
}

/** Parameters that are kept; behind it all are forgotten. */
const mostDerived = 500;

/**
 * What one version of a program without called files has found, for the next: it finds the same where the flows and the
 * records that it rests on are the same and no line has moved.
 */
export class FoundBefore {
  #touches: Touches = new Map();
  #record: Record | null = null;
  #moves = -1;
  readonly #derived = new Map<string, Derived>();

  constructor(private readonly text: FollowedText) {}

  /** The touches of a record; null: not the ones found before. */
  touches(record: Record): Touches | null {
    return this.#moves === this.text.moves && this.#record && tellSameTouches(this.#record, record)
      ? this.#touches
      : null;
  }

  keepTouches(record: Record, touches: Touches): void {
    this.#moves = this.text.moves;
    this.#record = record;
    this.#touches = touches;
  }

  /** What a parameter is made of behind a line where these flows arrive; `make` is asked where that is not known. */
  derived(
    line: number,
    parameter: string,
    flows: readonly Flowing[],
    touches: Touches,
    make: () => readonly Datum[],
  ): readonly Datum[] {
    const { moves } = this.text;
    const key = `${this.text.nameOf(line)}:${parameter}`;
    const known = this.#derived.get(key);
    if (known?.moves === moves && known.touches === touches && sameFlows(known.flows, flows))
      return known.datums;
    const datums = make();
    if (this.#derived.size > mostDerived) this.#derived.clear();
    this.#derived.set(key, { flows, touches, moves, datums });
    return datums;
  }
}

function sameFlows(a: readonly Flowing[], b: readonly Flowing[]): boolean {
  return a.length === b.length && a.every((flow, i) => flow === b[i]);
}

/** Whether all that makes a touch out of a record is the same in both, for each of their touches. */
function tellSameTouches(a: Record, b: Record): boolean {
  if (a.facts.size !== b.facts.size) return false;
  for (const [id, facts] of b.facts) {
    if (a.facts.get(id) !== facts) return false;
    if (a.coordinatesUsed.has(id) !== b.coordinatesUsed.has(id)) return false;
    if (a.notAlone.has(id) !== b.notAlone.has(id)) return false;
    const [before, now] = [a.reaches.get(id), b.reaches.get(id)];
    if (before?.size !== now?.size) return false;
    for (const where of now ?? []) if (!before?.has(where)) return false;
  }
  return true;
}
