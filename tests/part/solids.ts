import { covers, type Point, type Solid } from '../../server/part/solid.ts';

type Role = Solid['role'];

export const block = (min: Point, max: Point, rotation = 0, role: Role = 'add'): Solid => ({
  role,
  outline: {
    kind: 'rectangle',
    x: (min[0] + max[0]) / 2,
    y: (min[1] + max[1]) / 2,
    halfX: (max[0] - min[0]) / 2,
    halfY: (max[1] - min[1]) / 2,
    angle: (rotation * Math.PI) / 180,
  },
  bottom: min[2],
  top: max[2],
});

export const cylinder = (
  x: number,
  y: number,
  diameter: number,
  top: number,
  depth: number,
  role: Role = 'add',
): Solid => ({
  role,
  outline: { kind: 'circle', x, y, radius: diameter / 2 },
  bottom: top - depth,
  top,
});

export const bore = (x: number, y: number, diameter: number, top: number, depth: number): Solid =>
  cylinder(x, y, diameter, top, depth, 'cut');

/** Whether a point is material, by the plain meaning of the list: the last solid that holds it decides. */
export function isMaterial(solids: readonly Solid[], [x, y, z]: Point): boolean {
  let material = false;
  for (const { role, outline, bottom, top } of solids)
    if (z > bottom && z < top && covers(outline, x, y)) material = role === 'add';
  return material;
}
