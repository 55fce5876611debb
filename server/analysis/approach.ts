import {
  replaceUnknowns,
  scale,
  subtract,
  type Traced,
  type Unknown,
  type Value,
  withLiterals,
} from '../program/value.ts';
import type { TouchRequest } from '../program/world.ts';
import type { Made } from './flowing.ts';

type Direction = readonly [number, number, number];
type MadeTouches = ReadonlyMap<number, Pick<Made, 'from' | 'to'>>;

/**
 * Unit vector towards the surface. From an unknown height a touch in Z alone goes down. From where an earlier touch
 * stopped, a touch along one axis goes the way that holds for that one's start and end, between which the place lies.
 */
export function directionOf(request: TouchRequest, made: MadeTouches, perMm: number): Direction | null {
  const sign = request.away ? -1 : 1;
  const [x, y, z] = moves(request, perMm);
  if (x === 0 && y === 0 && z === null) {
    const side = sideOf(request, 2, made);
    if (side !== 0) return [0, 0, sign * side];
    return request.away ? null : [0, 0, -1];
  }
  if (x === null && y === 0 && z === 0) return alongX(sign * sideOf(request, 0, made));
  if (x === 0 && y === null && z === 0) return alongY(sign * sideOf(request, 1, made));
  if (typeof x !== 'number' || typeof y !== 'number' || typeof z !== 'number') return null;
  const length = Math.hypot(x, y, z);
  if (length < 1e-9) return null;
  return [(sign * x) / length, (sign * y) / length, (sign * z) / length];
}

/** Length of the programmed travel, mm; null where it is not known. */
export function travelOf(request: TouchRequest, perMm: number): number | null {
  const [x, y, z] = moves(request, perMm);
  return typeof x === 'number' && typeof y === 'number' && typeof z === 'number' ? Math.hypot(x, y, z) : null;
}

function alongX(side: number): Direction | null {
  return side === 0 ? null : [side, 0, 0];
}

function alongY(side: number): Direction | null {
  return side === 0 ? null : [0, side, 0];
}

function moves(request: TouchRequest, perMm: number): (number | null)[] {
  return [0, 1, 2].map((i) => {
    const moved = scale(withLiterals(subtract(request.to[i] ?? 0, request.from[i] ?? 0)), 1 / perMm);
    return typeof moved === 'number' ? moved : null;
  });
}

/** ±1 where the motion along an axis goes one way wherever a touch that it rests on stopped, all else known; else 0. */
function sideOf(request: TouchRequest, i: number, made: MadeTouches): number {
  const moved = subtract(request.to[i] ?? 0, request.from[i] ?? 0);
  if (typeof moved === 'number') return 0;
  for (const [least, most] of rangesOf(moved, made)) {
    if (least >= -1e-9 && most > 1e-9) return 1;
    if (most <= 1e-9 && least < -1e-9) return -1;
  }
  return 0;
}

/**
 * Least and greatest of a value for each touch that it rests on, all else known: a touch stops between the ends of its
 * travel.
 */
export function rangesOf(value: Value, made: MadeTouches): readonly (readonly [number, number])[] {
  const known = withLiterals(value);
  if (typeof known === 'number') return [[known, known]];
  return known.terms.flatMap(({ unknown }): [number, number][] => {
    if (unknown.kind !== 'stopped' && unknown.kind !== 'latched') return [];
    const [first, last] = [placedAt(known, unknown, 'from', made), placedAt(known, unknown, 'to', made)];
    if (typeof first !== 'number' || typeof last !== 'number') return [];
    return [[Math.min(first, last), Math.max(first, last)]];
  });
}

function placedAt(value: Traced, one: Unknown, end: 'from' | 'to', made: MadeTouches): Value {
  const placed = replaceUnknowns(value, (u) =>
    u.key === one.key && (u.kind === 'stopped' || u.kind === 'latched')
      ? (made.get(u.touch)?.[end][u.axis] ?? null)
      : null,
  );
  return withLiterals(placed);
}
