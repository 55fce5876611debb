import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { contactAt, firstContact, lastContact, stemContact } from '../../server/part/contact.ts';
import { Part } from '../../server/part/part.ts';
import { arc, line } from '../../server/part/path.ts';
import type { Point, Solid } from '../../server/part/solid.ts';
import { block, bore, cylinder, isMaterial } from './solids.ts';

const radius = 2;
const plate = block([-50, -50, -20], [50, 50, 0]);

/** Where the centre of the ball stands at first contact. */
function centreAt(solids: readonly Solid[], from: Point, to: Point): number[] | null {
  const path = line(from, to);
  const met = firstContact(new Part(solids), path, radius);
  return met === null ? null : [...path.at(met)];
}

describe('a ball against closed forms, to 1e-7 mm', () => {
  test('plane, head-on', () => {
    expect(centreAt([plate], [3, 4, 30], [3, 4, -10])?.[2]).toBeCloseTo(2, 9);
  });

  test('plane, at an angle', () => {
    const centre = centreAt([plate], [0, 0, 30], [40, 0, -10]);
    expect(centre?.[2]).toBeCloseTo(2, 7);
    expect(centre?.[0]).toBeCloseTo(28, 7);
  });

  test('a wall turned by 30°: one radius from the plane', () => {
    const turned = block([-10, -10, -20], [10, 10, 0], 30);
    const centre = centreAt([turned], [40, 0, -5], [0, 0, -5]) ?? [];
    const angle = Math.PI / 6;
    // The wall's plane: x·cos + y·sin = 10.
    expect((centre[0] ?? 0) * Math.cos(angle) + (centre[1] ?? 0) * Math.sin(angle)).toBeCloseTo(12, 7);
  });

  test('upright cylinder, off its middle: centres R + r apart', () => {
    const centre = centreAt([cylinder(0, 0, 20, 0, 20)], [40, 5, -5], [-40, 5, -5]);
    expect(centre?.[0]).toBeCloseTo(Math.sqrt(12 ** 2 - 25), 7);
  });

  test('bore, off its middle: the half-chord of radius ρ − r', () => {
    const centre = centreAt([plate, bore(0, 0, 25.4, 0, 20)], [0, 0.5, -5], [30, 0.5, -5]);
    expect(centre?.[0]).toBeCloseTo(Math.sqrt(10.7 ** 2 - 0.25), 7);
  });

  test('straight edge, from above and outside: a round of the ball about it', () => {
    const centre = centreAt([plate], [51, 0, 30], [51, 0, -30]);
    expect(centre?.[2]).toBeCloseTo(Math.sqrt(4 - 1), 7);
  });

  test('corner: the ball about a point', () => {
    const centre = centreAt([plate], [51, 50.5, 30], [51, 50.5, -30]);
    expect(centre?.[2]).toBeCloseTo(Math.sqrt(4 - 1 - 0.25), 7);
  });

  test('rim of a bore, from above', () => {
    const centre = centreAt([plate, bore(0, 0, 20, 0, 20)], [9, 0, 30], [9, 0, -15]);
    expect(centre?.[2]).toBeCloseTo(Math.sqrt(4 - 1), 7);
  });

  test('over a bore nothing is met before its floor', () => {
    const centre = centreAt([plate, bore(0, 0, 20, 0, 12)], [1, 2, 30], [1, 2, -30]);
    expect(centre?.[2]).toBeCloseTo(-10, 9);
  });

  test('an inside corner of a pocket stops the ball at both walls', () => {
    const pocket = block([-10, -10, -8], [10, 10, 0], 0, 'cut');
    const centre = centreAt([plate, pocket], [0, 0, -4], [20, 20, -4]);
    expect(centre).toEqual([expect.closeTo(8, 7), expect.closeTo(8, 7), -4]);
  });

  test('an arc meets a wall where it reaches one radius from it', () => {
    const path = arc({
      from: [30, 0, -5],
      axes: [0, 1, 2],
      centre: [0, 0],
      turn: Math.PI,
      endRadius: 30,
      rise: 0,
    });
    const wall = block([-60, 10, -20], [60, 60, 0]);
    const met = firstContact(new Part([wall]), path, radius) ?? 0;
    expect(met).toBeCloseTo(30 * Math.asin(8 / 30), 7);
  });

  test('a path past the part meets nothing, and one along a wall at a hair does neither', () => {
    expect(centreAt([plate], [60, 0, 0], [-60, 0, 2.1])).not.toBeNull();
    expect(centreAt([plate], [-60, 0, 2.0001], [60, 0, 2.0001])).toBeNull();
  });

  test('no part: nothing is met', () => {
    expect(centreAt([], [0, 0, 0], [1, 1, 1])).toBeNull();
    expect(contactAt(new Part([]), 0, 0, 0)).toBeNull();
  });

  test('a ball that was pushed in leaves where it is one radius off again', () => {
    const path = line([0, 0, 1], [0, 0, 20]);
    expect(lastContact(new Part([plate]), path, radius)).toBeCloseTo(1, 9);
  });

  test('the normal points to the surface, from outside and from inside', () => {
    const part = new Part([plate]);
    expect(contactAt(part, 0, 0, 2)).toMatchObject({ normal: [0, 0, -1], point: [0, 0, 0], solid: 0 });
    const inside = contactAt(part, 49.5, 0, -5);
    expect(inside?.normal[0]).toBe(-1);
    expect(inside?.distance).toBe(-0.5);
  });
});

describe('the stem', () => {
  test('meets a step above the ball', () => {
    const step = block([10, -50, -20], [50, 50, 30]);
    const path = line([0, 0, 5], [9.5, 0, 5]);
    const part = new Part([plate, step]);
    expect(stemContact(part, path, 1, 60)).toBeCloseTo(9, 7);
    expect(stemContact(part, path, 1, 0)).toBeNull();
  });

  test('does not meet what lies below its ball', () => {
    expect(stemContact(new Part([plate]), line([0, 0, 2], [30, 0, 2]), 1, 60)).toBeNull();
  });
});

// Steps of 1/64 mm, so that walls, tops and tangents often fall together.
const coordinate = fc.integer({ min: -768, max: 768 }).map((n) => n / 64);
const size = fc.integer({ min: 64, max: 896 }).map((n) => n / 64);
/** Places that no wall of such a part runs through. */
const place = coordinate.map((value) => value + Math.PI / 1000);
const anySolid: fc.Arbitrary<Solid> = fc
  .tuple(
    fc.constantFrom('add' as const, 'cut' as const),
    fc.boolean(),
    fc.tuple(coordinate, coordinate, coordinate),
    fc.tuple(size, size, size),
    fc.constantFrom(0, 0, 15, 45, -77),
  )
  .map(([role, round, [x, y, z], [dx, dy, dz], turn]) =>
    round ? cylinder(x, y, dx, z, dz, role) : block([x, y, z], [x + dx, y + dy, z + dz], turn, role),
  );
const anyPart = fc
  .tuple(anySolid, fc.array(anySolid, { maxLength: 5 }))
  .map(([first, rest]) => [{ ...first, role: 'add' as const }, ...rest]);

/** Points spread evenly over a ball (a Fibonacci spiral on some shells). */
const ballPoints: Point[] = [0.25, 0.5, 0.75, 0.9, 0.97, 1].flatMap((shell) =>
  Array.from({ length: 120 }, (_, i): Point => {
    const z = 1 - (2 * i + 1) / 120;
    const angle = i * 2.399963;
    const r = Math.sqrt(1 - z * z);
    return [shell * r * Math.cos(angle), shell * r * Math.sin(angle), shell * z];
  }),
);

describe('random parts against brute force', () => {
  test('before the contact no point of the ball is in the part, at it the surface is one radius away', () => {
    fc.assert(
      fc.property(anyPart, coordinate, coordinate, fc.constantFrom(0, 1, 2), (solids, a, b, axis) => {
        const part = new Part(solids);
        const at = (s: number): Point => (axis === 0 ? [s, a, b] : axis === 1 ? [a, s, b] : [a, b, s]);
        const path = line(at(40), at(-40));
        const met = firstContact(part, path, radius);
        const end = met ?? path.length;
        for (const share of [0.3, 0.6, 0.85, 0.97, 1]) {
          const [x = 0, y = 0, z = 0] = path.at(end * share);
          const reach = radius - 1e-6;
          const hit = ballPoints.some(([u, v, w]) =>
            isMaterial(solids, [x + reach * u, y + reach * v, z + reach * w]),
          );
          expect(hit).toBe(false);
        }
        if (met === null) return;
        const [x = 0, y = 0, z = 0] = path.at(met);
        const found = contactAt(part, x, y, z);
        expect(Math.abs((found?.distance ?? 0) - radius)).toBeLessThan(1e-7);
        const [px = 0, py = 0, pz = 0] = found?.point ?? [];
        const near = ballPoints.some(([u, v, w]) =>
          isMaterial(solids, [px + 1e-5 * u, py + 1e-5 * v, pz + 1e-5 * w]),
        );
        expect(near).toBe(true);
      }),
      { numRuns: 200, endOnFailure: true },
    );
  });

  test('inside the part the depth is that to the nearest free place', () => {
    fc.assert(
      fc.property(anyPart, place, place, place, (solids, x, y, z) => {
        const part = new Part(solids);
        const found = { ...part.distanceTo(x, y, z) };
        expect(found.distance < 0).toBe(isMaterial(solids, [x, y, z]));
        if (found.distance >= 0) return;
        const reach = -found.distance - 1e-6;
        const free = ballPoints.some(
          ([u, v, w]) => !isMaterial(solids, [x + reach * u, y + reach * v, z + reach * w]),
        );
        expect(free).toBe(false);
      }),
      { numRuns: 200, endOnFailure: true },
    );
  });
});
