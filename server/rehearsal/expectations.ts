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

/** The direction in the plane that a key speaks of, as in `G54.xy@30`; null: it speaks of an axis or a parameter. */
export function directionOf(key: string): {
  readonly system: string;
  readonly x: number;
  readonly y: number;
} | null {
  const found = /^(.+)\.xy@(.+)$/.exec(key);
  if (!found) return null;
  const angle = (Number(found[2]) * Math.PI) / 180;
  return { system: found[1] ?? '', x: Math.cos(angle), y: Math.sin(angle) };
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
    return expectations.map((expectation) => ({
      ...expectation,
      value: expectation.value + shiftAlong(expectation.key, move.by),
    }));
  const byKey = new Map(expectations.map((expectation) => [expectation.key, expectation]));
  return expectations.flatMap((expectation) => {
    const system = expectation.key.slice(0, -2);
    const [x, y] = [byKey.get(`${system}.x`), byKey.get(`${system}.y`)];
    if (!isPlace(expectation.key) || !x || !y || !/\.[xy]$/.test(expectation.key)) return [];
    const [turnedX, turnedY] = turnedPoint(x.value, y.value, move.centre, move.degrees);
    return [{ ...expectation, value: expectation.key.endsWith('.x') ? turnedX : turnedY }];
  });
}

function shiftAlong(key: string, [x, y, z]: readonly [number, number, number]): number {
  const direction = directionOf(key);
  if (direction) return x * direction.x + y * direction.y;
  return isPlace(key) ? ([x, y, z]['xyz'.indexOf(key.slice(-1))] ?? 0) : 0;
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
    const write = placeWritten(expectation.key, record);
    return write ? [{ expectation, error: write.value - expectation.value, line: write.line }] : [];
  });
}

/** What a run wrote last; along a direction it takes both axes. */
function placeWritten(
  key: string,
  { written }: RunRecord,
): { readonly value: number; readonly line: number } | null {
  const last = (wanted: string) => written.findLast((write) => write.key === wanted) ?? null;
  const direction = directionOf(key);
  if (direction === null) return last(key);
  const [x, y] = [last(`${direction.system}.x`), last(`${direction.system}.y`)];
  if (x === null || y === null) return null;
  return { value: x.value * direction.x + y.value * direction.y, line: Math.max(x.line, y.line) };
}

/** Keys of the axes that an expectation judges. */
export function axesJudged({ key }: Pick<Expectation, 'key'>): string[] {
  const direction = directionOf(key);
  return direction === null ? [key] : [`${direction.system}.x`, `${direction.system}.y`];
}

/** Work offsets that a run wrote behind a touch and that nothing is expected of. */
export function unjudged(
  { written }: RunRecord,
  expectations: readonly Pick<Expectation, 'key'>[],
): string[] {
  const known = new Set(expectations.flatMap(axesJudged));
  const keys = written.filter(({ touches, key }) => touches > 0 && !known.has(key)).map(({ key }) => key);
  return [...new Set(keys)];
}

/** Of an axis that turns: `G54.a`. */
export function isRotaryKey(key: string): boolean {
  return /\.[abc]$/.test(key);
}

function isPlace(key: string): boolean {
  return !key.startsWith('#');
}
