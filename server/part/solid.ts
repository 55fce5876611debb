/** mm, machine coordinates. */
export type Point = readonly [x: number, y: number, z: number];

/** What a solid looks like from above; `angle` in radians about its centre, counter-clockwise seen from +Z. */
export type Outline =
  | {
      readonly kind: 'rectangle';
      readonly x: number;
      readonly y: number;
      readonly halfX: number;
      readonly halfY: number;
      readonly angle: number;
    }
  | { readonly kind: 'circle'; readonly x: number; readonly y: number; readonly radius: number };

/** An upright solid, put on the part or cut out of it: mm, machine coordinates. */
export interface Solid {
  readonly role: 'add' | 'cut';
  readonly outline: Outline;
  readonly bottom: number;
  readonly top: number;
}

/** The solids moved by a vector. */
export function shifted(solids: readonly Solid[], [dx, dy, dz]: Point): Solid[] {
  return solids.map((solid) => ({
    ...solid,
    outline: { ...solid.outline, x: solid.outline.x + dx, y: solid.outline.y + dy },
    bottom: solid.bottom + dz,
    top: solid.top + dz,
  }));
}

/** The solids turned about Z through a point, counter-clockwise seen from +Z. */
export function turned(
  solids: readonly Solid[],
  centre: { readonly x: number; readonly y: number },
  degrees: number,
): Solid[] {
  const angle = (degrees * Math.PI) / 180;
  return solids.map((solid) => {
    const { outline } = solid;
    const [x, y] = turnedPoint(outline.x, outline.y, centre, degrees);
    return {
      ...solid,
      outline:
        outline.kind === 'circle' ? { ...outline, x, y } : { ...outline, x, y, angle: outline.angle + angle },
    };
  });
}

/** A point turned about another, seen from +Z. */
export function turnedPoint(
  x: number,
  y: number,
  centre: { readonly x: number; readonly y: number },
  degrees: number,
): [x: number, y: number] {
  const angle = (degrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const [dx, dy] = [x - centre.x, y - centre.y];
  return [centre.x + dx * cos - dy * sin, centre.y + dx * sin + dy * cos];
}

/** Whether a place in the plane lies within the outline; its edge counts as in. */
export function covers(outline: Outline, x: number, y: number): boolean {
  const dx = x - outline.x;
  const dy = y - outline.y;
  if (outline.kind === 'circle') return dx * dx + dy * dy <= outline.radius * outline.radius;
  if (outline.angle === 0) return Math.abs(dx) <= outline.halfX && Math.abs(dy) <= outline.halfY;
  const [cos, sin] = [Math.cos(outline.angle), Math.sin(outline.angle)];
  return Math.abs(dx * cos + dy * sin) <= outline.halfX && Math.abs(dy * cos - dx * sin) <= outline.halfY;
}
