import { describe, expect, test } from 'vitest';
import { fitCircle, type Point2, prattCircle } from '../../../server/probe/fits/circle.ts';
import { leastSquares } from '../../../server/probe/fits/leastSquares.ts';
import { cornerOf, fitLine } from '../../../server/probe/fits/line.ts';
import { fitPlane } from '../../../server/probe/fits/plane.ts';
import { propagated } from '../../../server/probe/fits/quality.ts';
import { fitSphere } from '../../../server/probe/fits/sphere.ts';
import type { Point3 } from '../../../server/probe/fits/vector.ts';
import { named, referenceCase } from '../../published/referenceCase.ts';
import { fitted } from './fitted.ts';

interface Points {
  readonly points: readonly Point2[];
}

interface Round {
  readonly cx: number;
  readonly cy: number;
  readonly r: number;
}

describe('circles', () => {
  const geometric = referenceCase<Points, Round & { rms_n: number; sum_sq: number }>('CIR-GEO');
  test(named(geometric), () => {
    const circle = fitted(fitCircle(geometric.inputs.points));
    const { cx, cy, r, rms_n, sum_sq } = geometric.expected;
    expect(circle.centre[0]).toBeCloseTo(cx, 7);
    expect(circle.centre[1]).toBeCloseTo(cy, 7);
    expect(circle.radius).toBeCloseTo(r, 7);
    const sum = circle.residuals.reduce((total, residual) => total + residual ** 2, 0);
    expect(sum).toBeCloseTo(sum_sq, 10);
    expect(Math.sqrt(sum / 6)).toBeCloseTo(rms_n, 9);
    // The note of the case: unbiased s with n − 3 degrees of freedom, and the range of the residuals.
    expect(circle.standardDeviation).toBeCloseTo(0.6396871834950938, 9);
    expect(circle.form).toBeCloseTo(1.4130027138423777, 9);
  });

  const algebraic = referenceCase<Points, Round>('CIR-PRATT');
  test(named(algebraic), () => {
    const circle = fitted(prattCircle(algebraic.inputs.points));
    expect(circle.centre[0]).toBeCloseTo(algebraic.expected.cx, 9);
    expect(circle.centre[1]).toBeCloseTo(algebraic.expected.cy, 9);
    expect(circle.radius).toBeCloseTo(algebraic.expected.r, 9);
  });

  const trap = referenceCase<Points, Round>('CIR-KASA');
  test(`${named(trap)}: linear least squares give it, and the fit does not fall for it`, () => {
    const { points } = trap.inputs;
    const design = points.map(([x, y]) => [2 * x, 2 * y, 1]);
    const { solution } = leastSquares(
      design,
      points.map(([x, y]) => x * x + y * y),
    );
    const [cx = 0, cy = 0, d = 0] = solution;
    expect(cx).toBeCloseTo(trap.expected.cx, 9);
    expect(cy).toBeCloseTo(trap.expected.cy, 9);
    expect(Math.sqrt(d + cx * cx + cy * cy)).toBeCloseTo(trap.expected.r, 9);
    expect(Math.abs(fitted(fitCircle(points)).radius - trap.expected.r)).toBeGreaterThan(0.5);
  });

  test.each(['CIR-EXACT-1', 'CIR-EXACT-2'])(
    '%s: a circle through exact points (elementary geometry)',
    (id) => {
      const { inputs, expected } = referenceCase<Points, Round>(id);
      const circle = fitted(fitCircle(inputs.points));
      expect(circle.centre[0]).toBeCloseTo(expected.cx, 9);
      expect(circle.centre[1]).toBeCloseTo(expected.cy, 9);
      expect(circle.radius).toBeCloseTo(expected.r, 9);
      expect(circle.form).toBeLessThan(1e-9);
    },
  );

  const trace = referenceCase<{ theta_deg: number[]; R: number[] }, { R: number; a: number; b: number }>(
    'CIR-EQ',
  );
  test(`${named(trace)}: the fit is that estimate to the second order of the deviations`, () => {
    const circle = fitted(
      fitCircle(polar(trace.inputs.theta_deg, (index) => trace.inputs.R[index] ?? Number.NaN)),
    );
    expect(circle.radius).toBeCloseTo(trace.expected.R, 5);
    expect(circle.centre[0]).toBeCloseTo(trace.expected.a, 5);
    expect(circle.centre[1]).toBeCloseTo(trace.expected.b, 5);
  });

  test.each([
    'LOB-LS-N3-n3',
    'LOB-LS-N4-n3',
    'LOB-LS-N8-n3',
    'LOB-LS-N36-n3',
    'LOB-LS-N7-n3',
    'LOB-LS-N4-n2',
  ])('%s: lobes seen by evenly spaced points (sampling theorem, computed)', (id) => {
    const { inputs, expected } = referenceCase<
      { N: number; n: number; R: number; a: number },
      Round & { form: number }
    >(id);
    const { N, n, R, a } = inputs;
    const angles = Array.from({ length: N }, (_, index) => (360 * index) / N);
    const circle = fitted(
      fitCircle(polar(angles, (index) => R + a * Math.cos((2 * Math.PI * n * index) / N))),
    );
    expect(Math.abs(circle.centre[0] - expected.cx)).toBeLessThan(1e-7);
    expect(Math.abs(circle.centre[1] - expected.cy)).toBeLessThan(1e-7);
    expect(Math.abs(circle.radius - expected.r)).toBeLessThan(1e-7);
    expect(Math.abs(circle.form - expected.form)).toBeLessThan(1e-7);
  });

  const secant = referenceCase<{ N: number; low_um: number; R: number }, Round & { form: number }>(
    'LOB-SEC-4',
  );
  test(named(secant), () => {
    const { low_um, R } = secant.inputs;
    const radius = (degrees: number) => {
      const psi = ((degrees - 120 * Math.round(degrees / 120)) * Math.PI) / 180;
      return R - low_um / 1000 / Math.cos(psi);
    };
    const circle = fitted(fitCircle(polar([0, 90, 180, 270], (index) => radius(90 * index))));
    expect(Math.abs(circle.centre[0] - secant.expected.cx)).toBeLessThan(1e-8);
    expect(Math.abs(circle.radius - secant.expected.r)).toBeLessThan(1e-8);
    expect(Math.abs(circle.form - secant.expected.form)).toBeLessThan(1e-8);
  });
});

interface Data {
  readonly x: readonly number[];
  readonly y: readonly number[];
}

const pairs = ({ x, y }: Data): Point2[] => x.map((value, index) => [value, y[index] ?? Number.NaN]);

describe('lines', () => {
  const closest = referenceCase<
    Data,
    {
      slope: number;
      intercept: number;
      sum_sq_perp: number;
      rms: number;
      published: { slope: number; intercept: number };
    }
  >('PEARSON-TLS');
  test(named(closest), () => {
    const line = fitted(fitLine(pairs(closest.inputs)));
    const slope = line.direction[1] / line.direction[0];
    const intercept = line.point[1] - slope * line.point[0];
    expect(slope).toBeCloseTo(closest.expected.slope, 9);
    expect(intercept).toBeCloseTo(closest.expected.intercept, 9);
    expect(Math.abs(slope - closest.expected.published.slope)).toBeLessThan(0.002);
    expect(Math.abs(intercept - closest.expected.published.intercept)).toBeLessThan(0.002);
    const sum = line.residuals.reduce((total, residual) => total + residual ** 2, 0);
    expect(sum).toBeCloseTo(closest.expected.sum_sq_perp, 9);
  });

  const ordinary = referenceCase<Data, Record<'y_on_x' | 'x_on_y', { slope: number; intercept: number }>>(
    'PEARSON-OLS',
  );
  test(`${named(ordinary)}: the closest line lies between`, () => {
    const { x, y } = ordinary.inputs;
    const ones = (values: readonly number[]) => values.map((value) => [1, value]);
    const [intercept = 0, slope = 0] = leastSquares(ones(x), y).solution;
    expect(slope).toBeCloseTo(ordinary.expected.y_on_x.slope, 9);
    expect(intercept).toBeCloseTo(ordinary.expected.y_on_x.intercept, 9);
    const [at = 0, inverse = 0] = leastSquares(ones(y), x).solution;
    expect(1 / inverse).toBeCloseTo(ordinary.expected.x_on_y.slope, 9);
    expect(-at / inverse).toBeCloseTo(ordinary.expected.x_on_y.intercept, 9);
  });

  const norris = referenceCase<Data, Record<'b0' | 'b1' | 's_b0' | 's_b1' | 'resid_sd', number>>(
    'STRD-NORRIS',
  );
  test(`${named(norris)}: solution, its covariance and the residual`, () => {
    const { x, y } = norris.inputs;
    const { solution, residuals, inverseNormal } = leastSquares(
      x.map((value) => [1, value]),
      y,
    );
    const s = Math.sqrt(residuals.reduce((sum, value) => sum + value ** 2, 0) / (x.length - 2));
    const found = {
      b0: solution[0],
      b1: solution[1],
      s_b0: s * Math.sqrt(inverseNormal[0]?.[0] ?? Number.NaN),
      s_b1: s * Math.sqrt(inverseNormal[1]?.[1] ?? Number.NaN),
      resid_sd: s,
    };
    for (const [key, value] of Object.entries(found))
      expect((value ?? Number.NaN) / norris.expected[key as keyof typeof found]).toBeCloseTo(1, 9);
  });

  const corner = referenceCase<
    { edge1: Point2[]; edge2: Point2[] },
    { x: number; y: number; included_angle_deg: number }
  >('CORNER-1');
  test(named(corner), () => {
    const { edge1, edge2 } = corner.inputs;
    const found = fitted(cornerOf(fitted(fitLine(edge1)), fitted(fitLine(edge2))));
    expect(found.point[0]).toBeCloseTo(corner.expected.x, 9);
    expect(found.point[1]).toBeCloseTo(corner.expected.y, 9);
    expect(found.angle).toBeCloseTo(corner.expected.included_angle_deg, 9);
  });
});

const twisted = referenceCase<
  { points: Point3[] },
  { normal: number[]; offset: number; flatness_LS: number }
>('PLANE-TWIST');
test(`plane, ${named(twisted)}`, () => {
  const plane = fitted(fitPlane(twisted.inputs.points));
  plane.normal.forEach((part, axis) => {
    expect(Math.abs(part - (twisted.expected.normal[axis] ?? Number.NaN))).toBeLessThan(1e-9);
  });
  expect(plane.point[2]).toBeCloseTo(twisted.expected.offset, 9);
  expect(plane.form).toBeCloseTo(twisted.expected.flatness_LS, 9);
});

describe('spheres', () => {
  const pattern = referenceCase<
    { rings: { polar_deg: number; count: number; rotation_deg: number }[] },
    { count: number; sum_unit_vectors: number[] }
  >('SPH-25');
  const directions = pattern.inputs.rings.flatMap(({ polar_deg, count, rotation_deg }) =>
    Array.from({ length: count }, (_, index): Point3 => {
      const polar = (polar_deg * Math.PI) / 180;
      const azimuth = ((rotation_deg + (360 * index) / count) * Math.PI) / 180;
      return [Math.sin(polar) * Math.cos(azimuth), Math.sin(polar) * Math.sin(azimuth), Math.cos(polar)];
    }),
  );

  test(`${named(pattern)}: the pattern of the cases below`, () => {
    expect(directions).toHaveLength(pattern.expected.count);
    [0, 1, 2].forEach((axis) => {
      const sum = directions.reduce((total, direction) => total + (direction[axis] ?? 0), 0);
      expect(Math.abs(sum - (pattern.expected.sum_unit_vectors[axis] ?? Number.NaN))).toBeLessThan(1e-9);
    });
  });

  const deviations: Readonly<Record<string, (direction: Point3) => number>> = {
    'SPH-LS-1': () => 0.008,
    'SPH-LS-3': ([, , z]) => 0.006 * z * z,
    'SPH-LS-LOB': ([x, y, z]) => 0.004 * Math.sqrt(1 - Math.min(z * z, 1)) * Math.cos(3 * Math.atan2(y, x)),
  };
  test.each(Object.entries(deviations))('%s (ISO 10360-5 definitions, computed)', (id, deviation) => {
    const { inputs, expected } = referenceCase<{ R: number }, Round & { cz: number; form_range: number }>(id);
    const points = directions.map((direction): Point3 => {
      const away = inputs.R + deviation(direction);
      return [away * direction[0], away * direction[1], away * direction[2]];
    });
    const sphere = fitted(fitSphere(points));
    const found = [...sphere.centre, sphere.radius, sphere.form];
    const wanted = [expected.cx, expected.cy, expected.cz, expected.r, expected.form_range];
    found.forEach((value, index) => {
      expect(Math.abs(value - (wanted[index] ?? Number.NaN))).toBeLessThan(1e-7);
    });
  });
});

const correlated = referenceCase<
  { V: number[]; I_mA: number[]; phi_rad: number[] },
  { u: number[]; R: number; X: number; Z: number; r_RX: number; r_RZ: number; r_XZ: number }
>('GUM-H2');
test(`propagation of correlated inputs, ${named(correlated)}`, () => {
  const { V, I_mA, phi_rad } = correlated.inputs;
  const sets = [V, I_mA.map((current) => current / 1000), phi_rad];
  const means = sets.map((set) => set.reduce((sum, value) => sum + value, 0) / 5);
  const [v = 0, i = 0, phi = 0] = means;
  const covariance = sets.map((one, a) =>
    sets.map((other, b) =>
      one.reduce(
        (sum, value, k) => sum + ((value - (means[a] ?? 0)) * ((other[k] ?? 0) - (means[b] ?? 0))) / 20,
        0,
      ),
    ),
  );
  const [cosine, sine] = [Math.cos(phi), Math.sin(phi)];
  const result = propagated(covariance, [
    [cosine / i, (-v * cosine) / i ** 2, (-v * sine) / i],
    [sine / i, (-v * sine) / i ** 2, (v * cosine) / i],
    [1 / i, -v / i ** 2, 0],
  ]);
  const u = result.map((row, index) => Math.sqrt(row[index] ?? Number.NaN));
  u.forEach((value, index) => {
    expect(Math.abs(value - (correlated.expected.u[index] ?? Number.NaN))).toBeLessThan(1e-6);
  });
  const r = (one: number, other: number) =>
    (result[one]?.[other] ?? Number.NaN) / ((u[one] ?? Number.NaN) * (u[other] ?? Number.NaN));
  expect(r(0, 1)).toBeCloseTo(correlated.expected.r_RX, 5);
  expect(r(0, 2)).toBeCloseTo(correlated.expected.r_RZ, 5);
  expect(r(1, 2)).toBeCloseTo(correlated.expected.r_XZ, 5);
});

function polar(degrees: readonly number[], radius: (index: number) => number): Point2[] {
  return degrees.map((angle, index) => {
    const theta = (angle * Math.PI) / 180;
    return [radius(index) * Math.cos(theta), radius(index) * Math.sin(theta)];
  });
}
