import type { Solid } from './solid.ts';

/**
 * How often two solids lie over each other, seen from above, in one of the layers that their heights cut the part into:
 * what a `Part` has to reckon with. Outlines count as the circles around them.
 */
export function overlaps(solids: readonly Solid[]): number {
  const heights = [...new Set(solids.flatMap(({ bottom, top }) => [bottom, top]))].sort((a, b) => a - b);
  const levelOf = new Map(heights.map((height, level) => [height, level]));
  const level = (height: number) => levelOf.get(height) ?? 0;
  let count = 0;
  for (const [index, a] of solids.entries())
    for (const b of solids.slice(index + 1)) {
      const shared = level(Math.min(a.top, b.top)) - level(Math.max(a.bottom, b.bottom));
      if (shared > 0 && meet(a, b)) count += shared;
    }
  return count;
}

function meet({ outline: a }: Solid, { outline: b }: Solid): boolean {
  return Math.hypot(a.x - b.x, a.y - b.y) <= reach(a) + reach(b);
}

function reach(outline: Solid['outline']): number {
  return outline.kind === 'circle' ? outline.radius : Math.hypot(outline.halfX, outline.halfY);
}
