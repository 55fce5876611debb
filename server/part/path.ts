import type { Point } from './solid.ts';

/** The way of one motion, by its length in mm. `at` fills and gives back the same array each time. */
export interface Path {
  readonly length: number;
  at(s: number): number[];
  /** Unit vector of the motion there. */
  direction(s: number): Point;
}

/** A straight way from one point to another. */
export function line(from: Point, to: Point): Path {
  const way: Point = [to[0] - from[0], to[1] - from[1], to[2] - from[2]];
  const length = Math.hypot(...way);
  const unit: Point = length > 0 ? [way[0] / length, way[1] / length, way[2] / length] : [0, 0, 0];
  const point = [0, 0, 0];
  return {
    length,
    at(s) {
      point[0] = from[0] + s * unit[0];
      point[1] = from[1] + s * unit[1];
      point[2] = from[2] + s * unit[2];
      return point;
    },
    direction: () => unit,
  };
}

/** An arc in the plane of two axes about a centre, with an even rise along the third: a helix, by its true length. */
export interface Arc {
  readonly from: Point;
  /** Indices of the plane's axes, in the order in which a positive turn leads from the first to the second, and of the third. */
  readonly axes: readonly [number, number, number];
  /** In the plane's axes. */
  readonly centre: readonly [number, number];
  /** Radians, positive from the first axis to the second. */
  readonly turn: number;
  /** The radius where it ends; it changes evenly on the way. */
  readonly endRadius: number;
  readonly rise: number;
}

/** The way of an arc. Where the end does not lie on the circle the radius changes evenly, as controls have it. */
export function arc({ from, axes, centre, turn, endRadius, rise }: Arc): Path {
  const [a, b, c] = axes;
  const [u, v] = [(from[a] ?? 0) - centre[0], (from[b] ?? 0) - centre[1]];
  const radius = Math.hypot(u, v);
  const start = Math.atan2(v, u);
  const length = Math.hypot(Math.max(radius, endRadius) * turn, rise, endRadius - radius);
  const point = [0, 0, 0];
  const at = (s: number) => {
    const share = length > 0 ? s / length : 0;
    const angle = start + share * turn;
    const r = radius + share * (endRadius - radius);
    point[a] = centre[0] + r * Math.cos(angle);
    point[b] = centre[1] + r * Math.sin(angle);
    point[c] = (from[c] ?? 0) + share * rise;
    return point;
  };
  return {
    length,
    at,
    direction(s) {
      const angle = start + (length > 0 ? s / length : 0) * turn;
      const way = [0, 0, 0];
      way[a] = -Math.sin(angle) * radius * turn;
      way[b] = Math.cos(angle) * radius * turn;
      way[c] = rise;
      const size = Math.hypot(...way) || 1;
      return [(way[0] ?? 0) / size, (way[1] ?? 0) / size, (way[2] ?? 0) / size];
    },
  };
}
