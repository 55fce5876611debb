import { describe, expect, test } from 'vitest';
import type { Point2 } from '../../../server/probe/fits/circle.ts';
import { fitCylinder } from '../../../server/probe/fits/cylinder.ts';
import { rotationAxis, rotationCentre } from '../../../server/probe/fits/rotaryAxis.ts';
import { dot, type Point3, unit } from '../../../server/probe/fits/vector.ts';
import { fitted, refusal } from './fitted.ts';
import { drawn, noise } from './shapes.ts';

describe('the centre that a table turns about', () => {
  const centre: Point2 = [412.3, -87.1];
  const places = (angles: readonly number[], arm: Point2, rough = 0, seed = 3) => {
    const random = drawn(seed);
    return angles.map((angle) => {
      const [cosine, sine] = [Math.cos((angle * Math.PI) / 180), Math.sin((angle * Math.PI) / 180)];
      const place: Point2 = [
        centre[0] + cosine * arm[0] - sine * arm[1] + rough * noise(random),
        centre[1] + sine * arm[0] + cosine * arm[1] + rough * noise(random),
      ];
      return { angle, place };
    });
  };

  test.each([[[0, 180]], [[0, 90]], [[10, 130, 250]]])('from a feature found at %j°', (angles) => {
    const found = fitted(rotationCentre(places(angles, [30, 4])));
    expect(found.centre[0]).toBeCloseTo(centre[0], 9);
    expect(found.centre[1]).toBeCloseTo(centre[1], 9);
    expect(found.arm[0]).toBeCloseTo(30, 9);
    expect(found.degreesOfFreedom).toBe(2 * angles.length - 4);
  });

  test('from two places at 0° and 180°: half way between them', () => {
    const [one, other] = places([0, 180], [30, 4]);
    const found = fitted(rotationCentre(places([0, 180], [30, 4])));
    expect(found.centre[0]).toBeCloseTo(((one?.place[0] ?? 0) + (other?.place[0] ?? 0)) / 2, 9);
  });

  test('from a feature on the axis itself', () => {
    expect(fitted(rotationCentre(places([0, 90, 180], [0, 0]))).centre[0]).toBeCloseTo(centre[0], 9);
  });

  test('its covariance is the spread of many', () => {
    const runs = Array.from({ length: 400 }, (_, seed) =>
      fitted(rotationCentre(places([0, 60, 120], [30, 4], 0.01, seed))),
    );
    const mean = runs.reduce((sum, run) => sum + run.centre[0], 0) / runs.length;
    const spread = Math.sqrt(runs.reduce((sum, run) => sum + (run.centre[0] - mean) ** 2, 0) / 399);
    const stated = Math.sqrt(runs.reduce((sum, run) => sum + (run.covariance?.[0]?.[0] ?? NaN), 0) / 400);
    expect(spread / stated).toBeGreaterThan(0.87);
    expect(spread / stated).toBeLessThan(1.13);
  });

  test('angles that lie close together are said', () => {
    expect(fitted(rotationCentre(places([0, 2], [30, 4]))).cautions[0]).toContain('Index further apart');
  });

  test.each<[string, { angle: number; place: Point2 }[], string]>([
    ['nothing', [], 'two or more different angles'],
    ['one angle', places([45], [30, 4]), 'two or more different angles'],
    ['twice the same angle', places([45, 405], [30, 4]), 'two or more different angles'],
    [
      'no number',
      [
        { angle: NaN, place: [0, 0] },
        { angle: 3, place: [0, 0] },
      ],
      'Place 1 has a coordinate or an angle',
    ],
  ])('%s is refused', (_, found, words) => {
    expect(refusal(rotationCentre(found))).toContain(words);
  });
});

/** Points around an axis through `foot`, at these heights and angles. */
function around(
  foot: Point3,
  axis: Point3,
  radius: number,
  at: readonly (readonly [number, number])[],
): Point3[] {
  const along = unit(axis);
  const side = unit([along[1], -along[0], 0]);
  const other: Point3 = [
    along[1] * side[2] - along[2] * side[1],
    along[2] * side[0] - along[0] * side[2],
    along[0] * side[1] - along[1] * side[0],
  ];
  return at.map(([height, degrees]) => {
    const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
    const part = (i: 0 | 1 | 2): number =>
      foot[i] + height * along[i] + radius * (c * side[i] + s * other[i]);
    return [part(0), part(1), part(2)];
  });
}

const box = [0, 30].flatMap((x) => [0, 20].flatMap((y) => [0, 50].map((z): Point3 => [x, y, z])));

const tilted: Point3 = [0.02, -0.03, 1];
const twoRings = [0, 30].flatMap((height) =>
  [0, 90, 180, 270].map((degrees) => [height, degrees + height] as const),
);

describe('cylinder', () => {
  test.each<[string, Point3]>([
    ['upright', tilted],
    ['along X', [1, 0.01, 0.02]],
    ['askew', [1, 2, -1.5]],
  ])('%s: axis and radius from two rings of four', (_, axis) => {
    const cylinder = fitted(fitCylinder(around([100, -50, 20], axis, 12, twoRings)));
    expect(cylinder.radius).toBeCloseTo(12, 7);
    expect(Math.abs(dot(cylinder.direction, unit(axis)))).toBeCloseTo(1, 12);
    const off = [0, 1, 2].map((i) => (cylinder.point[i] ?? 0) - ([100, -50, 20][i] ?? 0)) as [
      number,
      number,
      number,
    ];
    const along = dot(off, cylinder.direction);
    expect(Math.sqrt(Math.max(0, dot(off, off) - along ** 2))).toBeLessThan(1e-6);
  });

  test('the corners of a box lie on the one whose axis is named', () => {
    expect(fitted(fitCylinder(box, [0, 0, 1])).radius).toBeCloseTo(Math.hypot(15, 10), 9);
  });

  test('an arc of a quarter turn will do, with the axis known nearly', () => {
    const at = [0, 40].flatMap((height) => [0, 30, 60, 90].map((degrees) => [height, degrees] as const));
    const cylinder = fitted(fitCylinder(around([0, 0, 0], tilted, 25, at), [0, 0, 1]));
    expect(cylinder.radius).toBeCloseTo(25, 6);
  });

  test('the covariance is the spread of many', () => {
    const runs = Array.from({ length: 200 }, (_, seed) => {
      const random = drawn(seed);
      const points = around([0, 0, 0], tilted, 12, twoRings);
      const rough = points.map(
        ([x, y, z]): Point3 => [x + 0.01 * noise(random), y + 0.01 * noise(random), z],
      );
      return fitted(fitCylinder(rough, tilted));
    });
    const mean = runs.reduce((sum, run) => sum + run.radius, 0) / runs.length;
    const spread = Math.sqrt(
      runs.reduce((sum, run) => sum + (run.radius - mean) ** 2, 0) / (runs.length - 1),
    );
    const stated = Math.sqrt(
      runs.reduce((sum, run) => sum + (run.covariance?.[4]?.[4] ?? NaN), 0) / runs.length,
    );
    expect(spread / stated).toBeGreaterThan(0.8);
    expect(spread / stated).toBeLessThan(1.2);
  });

  test.each<[string, Point3[], string]>([
    [
      'five points',
      around([0, 0, 0], tilted, 12, twoRings).slice(0, 5),
      'A cylinder needs at least 6 points; there are 5.',
    ],
    [
      'one ring',
      around(
        [0, 0, 0],
        [0, 0.001, 1],
        12,
        [0, 60, 120, 180, 240, 300].map((d) => [0, d] as const),
      ),
      'The points lie in one plane',
    ],
    ['the corners of a box', box, 'Another cylinder fits the points as well'],
    ['a line', [0, 1, 2, 3, 4, 5].map((x): Point3 => [x, x, x]), 'The points lie on a line'],
  ])('%s is refused', (_, points, words) => {
    expect(refusal(fitCylinder(points))).toContain(words);
  });
});

test('the axis of a table from one feature in space at three angles, not known', () => {
  const places = around(
    [200, 10, -40],
    [0.001, 1, -0.002],
    55,
    [0, 100, 220].map((degrees) => [0, degrees] as const),
  );
  const axis = fitted(rotationAxis(places));
  expect(Math.abs(dot(axis.direction, unit([0.001, 1, -0.002])))).toBeCloseTo(1, 12);
  [200, 10, -40].forEach((value, index) => {
    expect(axis.centre[index]).toBeCloseTo(value, 8);
  });
  expect(axis.circle.radius).toBeCloseTo(55, 8);
  expect(refusal(rotationAxis(places.slice(0, 2)))).toContain('A plane needs at least 3 points');
});
