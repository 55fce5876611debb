/** Distance from a point to the surface of a part, mm, negative inside: exact outside, machine coordinates. */
export type Part = (x: number, y: number, z: number) => number;

/** An upright or flat half-space of solid beyond a plane whose outward normal is given. */
export function halfSpace(normal: readonly [number, number, number], at: number): Part {
  return (x, y, z) => normal[0] * x + normal[1] * y + normal[2] * z - at;
}

/** An upright cylinder from z = -∞ up to `top`. */
export function cylinder(cx: number, cy: number, diameter: number, top: number): Part {
  return (x, y, z) => cornered(Math.hypot(x - cx, y - cy) - diameter / 2, z - top);
}

/** A solid below `top` with an upright hole in it. */
export function plateWithHole(cx: number, cy: number, diameter: number, top: number): Part {
  return (x, y, z) => {
    const fromWall = diameter / 2 - Math.hypot(x - cx, y - cy);
    return fromWall > 0
      ? Math.hypot(fromWall, Math.max(0, z - top))
      : z > top
        ? z - top
        : Math.max(z - top, fromWall);
  };
}

/** The corner of a block below `top`: solid where both coordinates along its turned axes point into the part. */
export function blockCorner(
  corner: readonly [number, number],
  into: readonly [1 | -1, 1 | -1],
  turnedDegrees: number,
  top: number,
): Part {
  const angle = (turnedDegrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return (x, y, z) => {
    const [dx, dy] = [x - corner[0], y - corner[1]];
    const u = -into[0] * (cos * dx + sin * dy);
    const v = -into[1] * (-sin * dx + cos * dy);
    return cornered(cornered(u, v), z - top);
  };
}

export const nothing: Part = () => 1000;

/** Distance to the meeting of two half-spaces at right angles, from the distances to both. */
function cornered(a: number, b: number): number {
  return a > 0 && b > 0 ? Math.hypot(a, b) : Math.max(a, b);
}
