import type { Point2 } from '../../../server/probe/fits/circle.ts';
import type { Point3 } from '../../../server/probe/fits/vector.ts';

/** Uniform numbers in 0…1 that come again for the same seed: mulberry32, in the public domain. */
export function drawn(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** Standard normal. */
export function noise(random: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

/** Evenly spaced, each off by this much times a normal, always the same. */
export function onCircle(count: number, [x, y]: Point2, radius: number, rough: number): Point2[] {
  const random = drawn(7);
  return Array.from({ length: count }, (_, index): Point2 => {
    const angle = (2 * Math.PI * index) / count;
    const away = radius + rough * noise(random);
    return [x + away * Math.cos(angle), y + away * Math.sin(angle)];
  });
}

/** The pole and three rings of six over the upper half. */
export function onSphere([x, y, z]: Point3, radius: number, off: () => number = () => 0): Point3[] {
  const rings = [30, 60, 90].flatMap((polar) =>
    [0, 60, 120, 180, 240, 300].map((azimuth) => [polar, azimuth]),
  );
  return [[0, 0], ...rings].map(([polar = 0, azimuth = 0]): Point3 => {
    const [p, a, away] = [(polar * Math.PI) / 180, (azimuth * Math.PI) / 180, radius + off()];
    return [
      x + away * Math.sin(p) * Math.cos(a),
      y + away * Math.sin(p) * Math.sin(a),
      z + away * Math.cos(p),
    ];
  });
}
