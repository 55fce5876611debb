import { describe, expect, test } from 'vitest';
import { type Calibration, calibrate } from '../../server/probe/calibration/calibrate.ts';
import { pooledSpread } from '../../server/probe/calibration/repeats.ts';
import { approachOf, calibrateSphere, hemispherePattern } from '../../server/probe/calibration/sphere.ts';
import { predictedMeanPreTravel, predictedPreTravel } from '../../server/probe/tripModel.ts';
import { aProbe } from '../probe/aProbe.ts';
import { named, referenceCase } from './referenceCase.ts';

const size = 40;
const ring = { kind: 'ring', size, expandedUncertainty: 0 } as const;

/** Latched places at these distances from the ring's centre, evenly spaced, the first at 0°. */
function atDistances(count: number, distance: (angle: number) => number): Calibration {
  const touches = Array.from({ length: count }, (_, index) => {
    const angle = (2 * Math.PI * index) / count;
    const out = distance(angle);
    return {
      row: index + 2,
      direction: (360 * index) / count,
      x: out * Math.cos(angle),
      y: out * Math.sin(angle),
      speed: null,
      spindle: null,
    };
  });
  const result = calibrate(touches, ring, { orders: [3], tipDiameter: null, repeatability: null });
  if ('kind' in result) throw new Error(result.kind);
  return result;
}

interface Lobing {
  readonly N: number;
  readonly n: number;
  readonly R: number;
  readonly a: number;
}

describe('a circle of N touches on a lobed profile', () => {
  test.each(['N3-n3', 'N4-n3', 'N7-n3', 'N8-n3', 'N36-n3', 'N4-n2'])('LOB-LS-%s', (id) => {
    const lobed = referenceCase<Lobing, { cx: number; cy: number; r: number; form: number }>(`LOB-LS-${id}`);
    const { N, n, R, a } = lobed.inputs;
    const result = atDistances(N, (angle) => R + a * Math.cos(n * angle));
    expect(Math.abs(result.centre[0] - lobed.expected.cx), named(lobed)).toBeLessThan(1e-7);
    expect(Math.abs(result.centre[1] - lobed.expected.cy)).toBeLessThan(1e-7);
    // What stands r from the centre has the effective radius size/2 − r.
    expect(Math.abs(size / 2 - result.effectiveDiameter / 2 - lobed.expected.r)).toBeLessThan(1e-7);
    const radii = result.directions.map(({ effectiveRadius }) => effectiveRadius);
    expect(Math.abs(Math.max(...radii) - Math.min(...radii) - lobed.expected.form)).toBeLessThan(1e-7);
    const sees = n === 3 && N >= 7;
    expect(result.preTravelVariation !== null).toBe(sees);
    if (sees) expect(result.preTravelVariation).toBeCloseTo(2 * a, 8);
  });
});

const secant = referenceCase<
  { low_um: number; N: number; R: number },
  { cx: number; cy: number; r: number; form: number }
>('LOB-SEC-4');

test(named(secant), () => {
  const { low_um, R, N } = secant.inputs;
  const third = (2 * Math.PI) / 3;
  const result = atDistances(N, (angle) => {
    const off = angle - third * Math.round(angle / third);
    return R - low_um / 1000 / Math.cos(off);
  });
  expect(Math.abs(result.centre[0] - secant.expected.cx)).toBeLessThan(1e-8);
  expect(Math.abs(result.centre[1] - secant.expected.cy)).toBeLessThan(1e-8);
  expect(Math.abs(size / 2 - result.effectiveDiameter / 2 - secant.expected.r)).toBeLessThan(1e-8);
  const radii = result.directions.map(({ effectiveRadius }) => effectiveRadius);
  expect(Math.abs(Math.max(...radii) - Math.min(...radii) - secant.expected.form)).toBeLessThan(1e-8);
});

test('a calibration of the trip model finds its exact properties (error-model.md, section 2)', () => {
  const probe = aProbe({ calibration: null });
  const result = atDistances(100, (angle) => {
    const r = probe.tipDiameter / 2 - predictedPreTravel(probe, (angle * 180) / Math.PI);
    return size / 2 - r;
  });
  const mean = predictedMeanPreTravel(probe);
  // A hundred touches put order 300 into the radius and order 97 into order 3.
  expect((probe.tipDiameter - result.effectiveDiameter) / 2 / mean).toBeCloseTo(1, 3);
  expect((result.harmonics[0]?.cosine ?? NaN) / mean).toBeCloseTo(0.27514, 2);
  expect((result.harmonics[0]?.sine ?? NaN) / mean).toBeCloseTo(0, 6);
});

const pattern = referenceCase<
  { rings: { polar_deg: number; count: number; rotation_deg: number }[] },
  { count: number; sum_unit_vectors: number[] }
>('SPH-25');

test(named(pattern), () => {
  const touches = hemispherePattern();
  expect(touches).toHaveLength(pattern.expected.count);
  // The case has the places on the sphere, we the approaches: opposite.
  const sum = [0, 1, 2].map((axis) =>
    touches.reduce((total, touch) => total - (approachOf(touch)[axis] ?? 0), 0),
  );
  for (const axis of [0, 1, 2])
    expect(Math.abs((sum[axis] ?? NaN) - (pattern.expected.sum_unit_vectors[axis] ?? NaN))).toBeLessThan(
      1e-9,
    );
  for (const { polar_deg, count, rotation_deg } of pattern.inputs.rings) {
    const ring = touches.filter(({ elevation }) => elevation === polar_deg - 90);
    expect(ring).toHaveLength(count);
    if (count > 1) expect(ring[0]?.azimuth).toBe((180 + rotation_deg) % 360);
  }
});

/** The stylus met the surface of a sphere with this deviation, as if it had no radius. */
function onSphere(R: number, deviation: (polar: number, azimuth: number) => number) {
  const half = 1;
  const touches = hemispherePattern().map((touch, index) => {
    const [x, y, z] = approachOf(touch);
    const polar = Math.acos(-z);
    const out = R + deviation(polar, Math.atan2(-y, -x));
    return { ...touch, row: index + 2, x: -out * x, y: -out * y, z: -out * z, speed: null };
  });
  const reference = { kind: 'sphere', size: 2 * half, expandedUncertainty: 0 } as const;
  const result = calibrateSphere(touches, reference, { tipDiameter: null, repeatability: null });
  if (result === null) throw new Error('no sphere');
  return { result, half };
}

interface Deviated {
  readonly cx: number;
  readonly cy: number;
  readonly cz: number;
  readonly r: number;
  readonly form_range: number;
}

const uniform = referenceCase<{ R: number }, Deviated>('SPH-LS-1');

test(named(uniform), () => {
  const { result, half } = onSphere(uniform.inputs.R, () => 0.008);
  expect(Math.abs(half + result.lateralRadius - uniform.expected.r)).toBeLessThan(1e-7);
  expect(Math.abs(half + (result.axialRadius ?? NaN) - uniform.expected.r)).toBeLessThan(1e-7);
  expect(Math.abs(result.form - uniform.expected.form_range)).toBeLessThan(1e-7);
});

const axial = referenceCase<{ R: number }, Deviated>('SPH-LS-3');

test(`${named(axial)}: its form, and the deviation itself from the model with an axial radius`, () => {
  const { result, half } = onSphere(axial.inputs.R, (polar) => 0.006 * Math.cos(polar) ** 2);
  expect(Math.abs(result.form - axial.expected.form_range)).toBeLessThan(1e-7);
  expect(half + result.lateralRadius).toBeCloseTo(axial.inputs.R, 9);
  expect(half + (result.axialRadius ?? NaN)).toBeCloseTo(axial.inputs.R + 0.006, 9);
  expect(result.centre[2]).toBeCloseTo(0, 9);
});

const lobed = referenceCase<{ R: number }, Deviated>('SPH-LS-LOB');

test(`${named(lobed)}: its form, and the lobes themselves from the model with them`, () => {
  const { result } = onSphere(
    lobed.inputs.R,
    (polar, azimuth) => 0.004 * Math.sin(polar) * Math.cos(3 * azimuth),
  );
  expect(Math.abs(result.form - lobed.expected.form_range)).toBeLessThan(1e-7);
  // The approach is opposite to the place: cos 3α changes its sign.
  expect(result.harmonics[0]?.cosine).toBeCloseTo(-0.004, 8);
  expect(result.centre[0]).toBeCloseTo(0, 8);
});

const within = referenceCase<{ groups: number[][] }, { s_pooled: number; nu_within: number }>('STRD-SIRSTV');

test(`${named(within)}: repeated touches`, () => {
  const found = pooledSpread(within.inputs.groups);
  expect(found?.degreesOfFreedom).toBe(within.expected.nu_within);
  expect(Math.abs((found?.standardDeviation ?? NaN) / within.expected.s_pooled - 1)).toBeLessThan(1e-8);
});

const cancels = referenceCase<{ data: number[] }, { sd: number }>('STRD-NUMACC1');

test(`${named(cancels)}: repeated touches far from the origin`, () => {
  expect(pooledSpread([cancels.inputs.data])?.standardDeviation).toBeCloseTo(cancels.expected.sd, 12);
});

const pooled = referenceCase<{ groups_s: number[]; nu: number[] }, { s_p: number; nu: number }>('GUM-POOL');

test(`${named(pooled)}: repeated touches`, () => {
  // Groups with just these standard deviations: two values ±d off the mean, the rest at it.
  const groups = pooled.inputs.groups_s.map((s, index) => {
    const nu = pooled.inputs.nu[index] ?? 0;
    const d = s * Math.sqrt(nu / 2);
    return [d, -d, ...Array.from({ length: nu - 1 }, () => 0)];
  });
  const found = pooledSpread(groups);
  expect(found?.standardDeviation).toBeCloseTo(pooled.expected.s_p, 12);
  expect(found?.degreesOfFreedom).toBe(pooled.expected.nu);
});

const limacon = referenceCase<{ theta_deg: number[]; R: number[] }, { R: number; a: number; b: number }>(
  'CIR-EQ',
);

test(`${named(limacon)}: radius and centre of six touches`, () => {
  const result = atDistances(6, (angle) => limacon.inputs.R[Math.round((angle * 3) / Math.PI)] ?? NaN);
  // The limacon drops what is of second order in the shift of the centre: 0.0097²/20.
  expect(Math.abs(size / 2 - result.effectiveDiameter / 2 - limacon.expected.R)).toBeLessThan(5e-6);
  expect(Math.abs(result.centre[0] - limacon.expected.a)).toBeLessThan(5e-6);
  expect(Math.abs(result.centre[1] - limacon.expected.b)).toBeLessThan(5e-6);
});

test('a nominal 5/32 in tip that calibrates to 0.1548 in has a mean pre-travel of 0.00073 in (common practice, no source)', () => {
  const inch = 25.4;
  const effective = 0.1548 * inch;
  const touches = [0, 45, 90, 135, 180, 225, 270, 315].map((direction, index) => {
    const angle = (direction * Math.PI) / 180;
    const out = (inch - effective) / 2;
    return {
      row: index + 2,
      direction,
      x: out * Math.cos(angle),
      y: out * Math.sin(angle),
      speed: null,
      spindle: null,
    };
  });
  const result = calibrate(
    touches,
    { kind: 'ring', size: inch, expandedUncertainty: 0 },
    { orders: [3], tipDiameter: (5 / 32) * inch, repeatability: null },
  );
  if ('kind' in result) throw new Error(result.kind);
  expect((result.meanPreTravel ?? NaN) / inch).toBeCloseTo(0.00073, 5);
});

test('a stiff short stylus disagrees between opposite directions by under 0.0005 in, a slender one by much more (common practice, no source)', () => {
  const disagreement = (length: number, stemDiameter: number) => {
    const probe = aProbe({
      calibration: null,
      stylus: { length, stemDiameter, material: 'tungsten-carbide' },
    });
    return Math.abs(predictedPreTravel(probe, 0) - predictedPreTravel(probe, 180)) / 25.4;
  };
  expect(disagreement(50, 3)).toBeLessThan(0.0005);
  expect(disagreement(100, 1.5)).toBeGreaterThan(5 * 0.0005);
});
