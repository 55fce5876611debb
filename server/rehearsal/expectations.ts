import type { Setup } from '../part/setup.ts';
import { turnedPoint } from '../part/solid.ts';
import type { PartMove } from './faults.ts';
import type { RunRecord } from './runRecord.ts';

/** What a datum or a parameter should come to: mm, degrees for rotary axes, machine coordinates. */
export interface Expectation {
  readonly key: string;
  readonly value: number;
  readonly tolerance: number;
}

export function expectationsOf(setup: Setup): Expectation[] {
  return [...setup.expect].map(([key, { value, tolerance }]) => ({ key, value, tolerance }));
}

/**
 * What is expected of a part that was moved. Shifted, its places move along; turned, those of which x and y are both
 * expected turn too, and the others can't be judged.
 */
export function moved(
  expectations: readonly Expectation[],
  moves: readonly PartMove[],
): readonly Expectation[] {
  return moves.reduce(movedOnce, expectations);
}

function movedOnce(expectations: readonly Expectation[], move: PartMove): readonly Expectation[] {
  if (move.kind === 'shift')
    return expectations.map((expectation) => {
      const axis = isPlace(expectation.key) ? 'xyz'.indexOf(expectation.key.slice(-1)) : -1;
      return { ...expectation, value: expectation.value + (move.by[axis] ?? 0) };
    });
  const byKey = new Map(expectations.map((expectation) => [expectation.key, expectation]));
  return expectations.flatMap((expectation) => {
    const system = expectation.key.slice(0, -2);
    const [x, y] = [byKey.get(`${system}.x`), byKey.get(`${system}.y`)];
    if (!isPlace(expectation.key) || !x || !y || !/\.[xy]$/.test(expectation.key)) return [];
    const [turnedX, turnedY] = turnedPoint(x.value, y.value, move.centre, move.degrees);
    return [{ ...expectation, value: expectation.key.endsWith('.x') ? turnedX : turnedY }];
  });
}

export interface FoundError {
  readonly expectation: Expectation;
  readonly error: number;
  /** Where it was written; null for a parameter. */
  readonly line: number | null;
}

/** How far off what was expected is, written − true; what the run never wrote is left out. */
export function errorsOf(expectations: readonly Expectation[], record: RunRecord): FoundError[] {
  return expectations.flatMap((expectation): FoundError[] => {
    if (!isPlace(expectation.key)) {
      const value = record.parameters.get(expectation.key);
      if (value === undefined) return [];
      return [{ expectation, error: value * record.unit - expectation.value, line: null }];
    }
    const write = record.written.findLast(({ key }) => key === expectation.key);
    return write ? [{ expectation, error: write.value - expectation.value, line: write.line }] : [];
  });
}

/** Work offsets that a run wrote behind a touch and that nothing is expected of. */
export function unjudged(
  { written }: RunRecord,
  expectations: readonly Pick<Expectation, 'key'>[],
): string[] {
  const known = new Set(expectations.map(({ key }) => key));
  const keys = written.filter(({ touches, key }) => touches > 0 && !known.has(key)).map(({ key }) => key);
  return [...new Set(keys)];
}

function isPlace(key: string): boolean {
  return !key.startsWith('#');
}
