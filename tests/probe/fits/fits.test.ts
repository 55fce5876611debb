import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fitCircle, type Point2, prattCircle } from '../../../server/probe/fits/circle.ts';
import { cornerOf, fitLine, type LineFit } from '../../../server/probe/fits/line.ts';
import { fitPlane } from '../../../server/probe/fits/plane.ts';
import { fitSphere } from '../../../server/probe/fits/sphere.ts';
import type { Point3 } from '../../../server/probe/fits/vector.ts';
import { fitted, refusal } from './fitted.ts';
import { drawn, noise, onCircle, onSphere } from './shapes.ts';

describe('a far offset and a small unit change nothing', () => {
  const shift = 1e6;
  const scales = [1, 25.4, 1e-3];

  test.each(scales)('circle, in units of %d', (unit) => {
    const round = onCircle(12, [shift, -shift], 10, 0.01);
    const circle = fitted(fitCircle(round.map(([x, y]) => [x * unit, y * unit])));
    const near = fitted(fitCircle(onCircle(12, [0, 0], 10, 0.01)));
    expect((circle.centre[0] / unit - shift) / 10).toBeCloseTo(near.centre[0] / 10, 8);
    expect(circle.radius / unit).toBeCloseTo(near.radius, 8);
    expect((circle.standardDeviation ?? Number.NaN) / unit).toBeCloseTo(
      near.standardDeviation ?? Number.NaN,
      8,
    );
    expect(circle.condition).toBeCloseTo(near.condition, 6);
  });

  test('line, plane and sphere', () => {
    const line = fitted(
      fitLine([
        [shift, shift],
        [shift + 10, shift + 5],
        [shift + 20, shift + 10],
      ]),
    );
    expect(line.direction[1] / line.direction[0]).toBeCloseTo(0.5, 8);
    const plane = fitted(
      fitPlane([
        [shift, 0, 1],
        [shift + 10, 0, 1.1],
        [shift, 10, 1],
        [shift + 10, 10, 1.1],
      ]),
    );
    expect(plane.normal[0] / plane.normal[2]).toBeCloseTo(-0.01, 8);
    const sphere = fitted(fitSphere(onSphere([shift, shift, -shift], 12.5)));
    expect(sphere.radius).toBeCloseTo(12.5, 7);
    expect(sphere.centre[2] + shift).toBeCloseTo(0, 7);
  });
});

describe('covariance', () => {
  test('of a circle touched all around: s²·2/N for the centre and s²/N for the radius', () => {
    const circle = fitted(fitCircle(onCircle(16, [3, 4], 10, 0.004)));
    const variance = (circle.standardDeviation ?? Number.NaN) ** 2;
    expect((circle.covariance?.[0]?.[0] ?? Number.NaN) / variance).toBeCloseTo(2 / 16, 5);
    expect((circle.covariance?.[2]?.[2] ?? Number.NaN) / variance).toBeCloseTo(1 / 16, 5);
  });

  test('is the spread of many fits', () => {
    const found = {
      'radius of half a circle': repeated(halfCircle, (fit) => [fit.radius, fit.covariance?.[2]?.[2]]),
      'angle of a line': repeated(noisyLine, ({ direction: [x, y], covariance }) => [
        Math.atan2(y, x),
        covariance?.[1]?.[1],
      ]),
      'x of a corner': repeated(noisyCorner, (fit) => [fit.point[0], fit.covariance?.[0]?.[0]]),
      'height of a sphere': repeated(noisySphere, (fit) => [fit.centre[2], fit.covariance?.[2]?.[2]]),
    };
    // 300 fits know a spread to 4 %.
    for (const [name, { spread, stated }] of Object.entries(found))
      expect(Math.abs(spread / stated - 1), name).toBeLessThan(0.14);
  });

  test('is not there where no point is to spare', () => {
    const circle = fitted(
      fitCircle([
        [0, 0],
        [4, 0],
        [0, 3],
      ]),
    );
    expect(circle).toMatchObject({ degreesOfFreedom: 0, standardDeviation: null, covariance: null });
  });
});

/** Standard deviation of a parameter over many noisy fits, and what their covariances say it is. */
function repeated<Fit>(
  once: (seed: number) => Fit,
  read: (fit: Fit) => readonly [number, number | undefined],
): { readonly spread: number; readonly stated: number } {
  const runs = Array.from({ length: 300 }, (_, seed) => read(once(seed)));
  const mean = runs.reduce((sum, [value]) => sum + value, 0) / runs.length;
  const variance = runs.reduce((sum, [value]) => sum + (value - mean) ** 2, 0) / (runs.length - 1);
  const stated = runs.reduce((sum, [, each]) => sum + (each ?? Number.NaN), 0) / runs.length;
  return { spread: Math.sqrt(variance), stated: Math.sqrt(stated) };
}

function halfCircle(seed: number) {
  const random = drawn(seed);
  const points = Array.from({ length: 9 }, (_, index): Point2 => {
    const angle = (Math.PI * index) / 8;
    const radius = 10 + 0.01 * noise(random);
    return [radius * Math.cos(angle), radius * Math.sin(angle)];
  });
  return fitted(fitCircle(points));
}

function lineWith(random: () => number, at: (index: number) => Point2, across: Point2): LineFit {
  const points = Array.from({ length: 7 }, (_, index): Point2 => {
    const [x, y] = at(index);
    const away = 0.01 * noise(random);
    return [x + away * across[0], y + away * across[1]];
  });
  return fitted(fitLine(points));
}

function noisyLine(seed: number): LineFit {
  return lineWith(drawn(seed), (index) => [5 * index, 0], [0, 1]);
}

function noisyCorner(seed: number) {
  const random = drawn(seed);
  const bottom = lineWith(random, (index) => [10 + 5 * index, 0], [0, 1]);
  const side = lineWith(random, (index) => [3 + index, 6 + 2 * index], [2 / Math.sqrt(5), -1 / Math.sqrt(5)]);
  return fitted(cornerOf(bottom, side));
}

function noisySphere(seed: number) {
  const random = drawn(seed);
  return fitted(fitSphere(onSphere([1, 2, 3], 12.5, () => 0.005 * noise(random))));
}

describe('what cannot be fitted is refused in words', () => {
  const inLine: Point2[] = [
    [0, 0],
    [1, 1],
    [2, 2],
    [3, 3],
  ];
  const inPlane: Point3[] = [
    [0, 0, 5],
    [1, 0, 5],
    [0, 1, 5],
    [-1, 0, 5],
    [0, -1, 5],
  ];

  test.each<[string, () => object, string]>([
    [
      'two points',
      () =>
        fitCircle([
          [0, 0],
          [1, 1],
        ]),
      'A circle needs at least 3 points; there are 2.',
    ],
    ['no points', () => fitLine([]), 'A line needs at least 2 points; there are 0.'],
    ['one point', () => fitPlane([[0, 0, 0]]), 'A plane needs at least 3 points; there is 1.'],
    [
      'NaN',
      () =>
        fitCircle([
          [0, 0],
          [Number.NaN, 1],
          [2, 0],
        ]),
      'Point 2 has a coordinate that is no number.',
    ],
    [
      'infinity',
      () =>
        fitSphere([
          [0, 0, 0],
          [1, 0, 0],
          [0, 1, 0],
          [0, 0, Infinity],
        ]),
      'Point 4 has a coordinate',
    ],
    [
      'a number beyond all measure',
      () =>
        fitLine([
          [0, 0],
          [1e200, 0],
        ]),
      'Point 2 has a coordinate',
    ],
    [
      'a single place',
      () =>
        fitCircle([
          [7, 7],
          [7, 7],
          [7, 7],
        ]),
      'The 3 points lie in one place.',
    ],
    [
      'two places',
      () =>
        fitCircle([
          [0, 0],
          [1, 0],
          [0, 0],
          [1, 0],
        ]),
      'The points lie on a line',
    ],
    [
      'collinear points',
      () => fitCircle(inLine),
      'The points lie on a line: no circle goes near all of them.',
    ],
    [
      'collinear points far away',
      () => fitCircle(inLine.map(([x, y]) => [x + 1e6, y - 1e6])),
      'The points lie on a line',
    ],
    ['collinear for the start', () => prattCircle(inLine), 'The points lie on a line'],
    [
      'collinear for a plane',
      () =>
        fitPlane([
          [0, 0, 0],
          [1, 1, 1],
          [2, 2, 2],
        ]),
      'every plane through it',
    ],
    ['coplanar for a sphere', () => fitSphere(inPlane), 'The points lie in one plane: spheres of every size'],
    [
      'a square for a line',
      () =>
        fitLine([
          [0, 0],
          [1, 0],
          [1, 1],
          [0, 1],
        ]),
      'The points spread alike in every direction',
    ],
    ['a cube for a plane', () => fitPlane(cube()), 'The points spread alike across every plane'],
    [
      'parallel lines',
      () =>
        cornerOf(
          fitted(
            fitLine([
              [0, 0],
              [1, 0],
            ]),
          ),
          fitted(
            fitLine([
              [0, 1],
              [5, 1],
            ]),
          ),
        ),
      'The two lines are parallel',
    ],
  ])('%s', (_, fit, words) => {
    expect(refusal(fit())).toContain(words);
  });

  function cube(): Point3[] {
    return [0, 1].flatMap((x) => [0, 1].flatMap((y) => [0, 1].map((z): Point3 => [x, y, z])));
  }
});

test('a scan of 1000 points is fitted as well; one that would take minutes is refused', () => {
  const circle = fitted(fitCircle(onCircle(1000, [5, 6], 10, 0.01)));
  expect(circle.radius).toBeCloseTo(10, 2);
  expect(circle.standardDeviation).toBeCloseTo(0.01, 3);
  expect(refusal(fitCircle(onCircle(150_000, [5, 6], 10, 0.01)))).toContain('Thin them out.');
});

describe('what is seen badly is said', () => {
  test('a short arc, with its angle', () => {
    const arc = [0, 5, 10, 15].map((degrees): Point2 => {
      const angle = (degrees * Math.PI) / 180;
      return [100 * Math.cos(angle), 100 * Math.sin(angle)];
    });
    const circle = fitted(fitCircle(arc));
    expect(circle.radius).toBeCloseTo(100, 6);
    expect(circle.arc).toBeCloseTo(15, 6);
    expect(circle.cautions[0]).toContain(
      'The points span 15° of the circle: centre and radius cannot be told apart well',
    );
  });

  test('a cap of a sphere and a strip of a plane', () => {
    const cap = onSphere([0, 0, 0], 100, () => 0).map(
      ([x, y, z]): Point3 => [x / 10, y / 10, Math.sqrt(1e4 - (x * x + y * y) / 100) + 0 * z],
    );
    expect(fitted(fitSphere(cap)).cautions[0]).toContain('a small part of the sphere');
    const strip: Point3[] = [0, 1, 2, 3].flatMap(
      (x) =>
        [
          [100 * x, 0, 0],
          [100 * x, 1, 0],
        ] as Point3[],
    );
    expect(fitted(fitPlane(strip)).cautions[0]).toContain('times as long as wide');
  });

  test('a whole circle gives no reason to complain', () => {
    expect(fitted(fitCircle(onCircle(4, [0, 0], 10, 0))).cautions).toEqual([]);
  });
});

describe('what holds for every circle', () => {
  const length = fc.double({ min: -1000, max: 1000, noNaN: true });
  test('exact points give it back, wherever they stand', () => {
    fc.assert(
      fc.property(
        length,
        length,
        fc.double({ min: 0.01, max: 1000, noNaN: true }),
        fc.uniqueArray(fc.integer({ min: 0, max: 35 }), { minLength: 3, maxLength: 12 }),
        (x, y, radius, tens) => {
          const points = tens.map((ten): Point2 => {
            const angle = (ten * Math.PI) / 18;
            return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
          });
          const circle = fitted(fitCircle(points));
          const near = 1e-9 * (1 + Math.abs(x) + Math.abs(y) + radius) * circle.condition;
          expect(Math.hypot(circle.centre[0] - x, circle.centre[1] - y)).toBeLessThan(near);
          expect(Math.abs(circle.radius - radius)).toBeLessThan(near);
        },
      ),
    );
  });

  test('the order of the points does not matter', () => {
    const points = onCircle(9, [5, 6], 3, 0.05);
    const [one, other] = [fitted(fitCircle(points)), fitted(fitCircle([...points].reverse()))];
    expect(one.radius).toBeCloseTo(other.radius, 11);
    expect([...one.residuals].reverse()[0]).toBeCloseTo(other.residuals[0] ?? Number.NaN, 10);
  });
});
