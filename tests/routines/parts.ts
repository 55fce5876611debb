import type { Solid } from '../../server/part/solid.ts';

/** Distance from a point to the surface of a part, mm, negative inside: exact outside, machine coordinates. */
export type Part = (x: number, y: number, z: number) => number;

/** An upright or flat half-space of solid beyond a plane whose outward normal is given. */
export function halfSpace(normal: readonly [number, number, number], at: number): Part {
  return (x, y, z) => normal[0] * x + normal[1] * y + normal[2] * z - at;
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

/**
 * Upright solids put on and cut out, from the plain distances to each: exact but near edges, where it is too small and the
 * tests so much stricter. Apart from `server/part`, which the rehearsal uses.
 */
export function solidsPart(solids: readonly Solid[]): Part {
  return (x, y, z) =>
    solids.reduce(
      (far, solid) =>
        solid.role === 'add'
          ? Math.min(far, fromSolid(solid, x, y, z))
          : Math.max(far, -fromOutline(solid, x, y)),
      Number.POSITIVE_INFINITY,
    );
}

function fromSolid(solid: Solid, x: number, y: number, z: number): number {
  return cornered(fromOutline(solid, x, y), z - solid.top);
}

function fromOutline({ outline }: Solid, x: number, y: number): number {
  const [dx, dy] = [x - outline.x, y - outline.y];
  if (outline.kind === 'circle') return Math.hypot(dx, dy) - outline.radius;
  const [cos, sin] = [Math.cos(outline.angle), Math.sin(outline.angle)];
  return cornered(
    Math.abs(cos * dx + sin * dy) - outline.halfX,
    Math.abs(-sin * dx + cos * dy) - outline.halfY,
  );
}

export const nothing: Part = () => 1000;

/** Distance to the meeting of two half-spaces at right angles, from the distances to both. */
function cornered(a: number, b: number): number {
  return a > 0 && b > 0 ? Math.hypot(a, b) : Math.max(a, b);
}
