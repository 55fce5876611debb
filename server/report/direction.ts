type Vector = readonly [number, number, number];

/** `X+`, `X+Y−`, or "in an unknown direction". */
export function directionName(direction: Vector | null): string {
  if (direction === null) return 'in an unknown direction';
  const [x, y, z] = direction;
  const parts = [['X', x] as const, ['Y', y] as const, ['Z', z] as const].filter(
    ([, part]) => Math.abs(part) > 1e-6,
  );
  return parts.map(([axis, part]) => `${axis}${part > 0 ? '+' : '−'}`).join('');
}

/** Degrees from X+ counter-clockwise seen from +Z, in [0, 360); null where the touch has no lateral part. */
export function directionAngle(direction: Vector | null): number | null {
  if (direction === null || Math.hypot(direction[0], direction[1]) < 1e-6) return null;
  const degrees = (Math.atan2(direction[1], direction[0]) * 180) / Math.PI;
  return (degrees + 360) % 360;
}
