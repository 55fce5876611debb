/** A circle and the farthest that a place is off it, mm. */
export interface Circle {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly off: number;
}

/**
 * The circle nearest to places in the plane: least squares of x² + y² + a·x + b·y + c about their mean, which is linear.
 * null: they lie in a line, or are fewer than three.
 */
export function roundThrough(places: readonly (readonly [x: number, y: number])[]): Circle | null {
  const count = places.length;
  if (count < 3) return null;
  const [meanX, meanY] = [mean(places.map(([x]) => x)), mean(places.map(([, y]) => y))];
  const about = places.map(([x, y]) => [x - meanX, y - meanY] as const);
  const sum = (of: (u: number, v: number) => number) => about.reduce((all, [u, v]) => all + of(u, v), 0);
  const [uu, vv, uv] = [sum((u) => u * u), sum((_, v) => v * v), sum((u, v) => u * v)];
  const determinant = uu * vv - uv * uv;
  if (determinant < 1e-6 * (uu + vv) ** 2) return null;
  const right = sum((u, v) => u * (u * u + v * v)) / 2;
  const up = sum((u, v) => v * (u * u + v * v)) / 2;
  const u = (right * vv - up * uv) / determinant;
  const v = (up * uu - right * uv) / determinant;
  const radius = Math.sqrt(u * u + v * v + (uu + vv) / count);
  const off = Math.max(...about.map(([a, b]) => Math.abs(Math.hypot(a - u, b - v) - radius)));
  return { x: meanX + u, y: meanY + v, radius, off };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
