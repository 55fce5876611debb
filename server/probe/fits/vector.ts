export type Point3 = readonly [number, number, number];

/** Σ factor · vector. */
export function combine(...parts: readonly (readonly [number, Point3])[]): Point3 {
  const sum = (axis: 0 | 1 | 2): number =>
    parts.reduce((total, [factor, vector]) => total + factor * vector[axis], 0);
  return [sum(0), sum(1), sum(2)];
}

export function dot(one: readonly number[], other: Point3): number {
  return (one[0] ?? 0) * other[0] + (one[1] ?? 0) * other[1] + (one[2] ?? 0) * other[2];
}

export function unit(vector: Point3): Point3 {
  const length = Math.hypot(...vector);
  return [vector[0] / length, vector[1] / length, vector[2] / length];
}
