import { describe, expect, test } from 'vitest';
import { designSphere } from '../../../server/probe/calibration/designSphere.ts';
import { implausibleSphere } from '../../../server/probe/calibration/implausibleSphere.ts';
import {
  approachOf,
  calibrateSphere,
  hemispherePattern,
  type SphereCalibration,
  type SphereTouch,
} from '../../../server/probe/calibration/sphere.ts';
import { noise } from './noise.ts';

interface SphereTruth {
  readonly lateral: number;
  readonly axial: number;
  readonly lobe?: number;
  readonly noise?: () => number;
}

const half = 12.5;
const centre = [4, -2, 30] as const;

function touched(
  { lateral, axial, lobe = 0, noise: next = () => 0 }: SphereTruth,
  pattern: readonly { azimuth: number; elevation: number }[] = hemispherePattern(),
): SphereTouch[] {
  return pattern.map(({ azimuth, elevation }, index) => {
    const [x, y, z] = approachOf({ azimuth, elevation });
    const flat = Math.hypot(x, y);
    const r = lateral * flat ** 2 + axial * z ** 2 + lobe * flat * Math.cos((3 * azimuth * Math.PI) / 180);
    const out = half + r + next();
    return {
      row: index + 2,
      azimuth,
      elevation,
      x: centre[0] - out * x,
      y: centre[1] - out * y,
      z: centre[2] - out * z,
      speed: null,
    };
  });
}

function calibrated(touches: readonly SphereTouch[], uncertainty = 0): SphereCalibration {
  const reference = { kind: 'sphere', size: 2 * half, expandedUncertainty: uncertainty } as const;
  const found = calibrateSphere(touches, reference, { tipDiameter: 4, repeatability: null });
  if (found === null) throw new Error('no sphere');
  return found;
}

describe('exact touches give the truth back', () => {
  test('lateral and axial radius, lobes and centre', () => {
    const found = calibrated(touched({ lateral: 1.98, axial: 1.995, lobe: 0.004 }));
    expect(found.lateralRadius).toBeCloseTo(1.98, 9);
    expect(found.axialRadius).toBeCloseTo(1.995, 9);
    expect(found.harmonics[0]?.cosine).toBeCloseTo(0.004, 9);
    for (const axis of [0, 1, 2] as const) expect(found.centre[axis]).toBeCloseTo(centre[axis], 9);
    expect(found.effectiveDiameter).toBeCloseTo(3.96, 9);
    expect(found.meanPreTravel).toBeCloseTo(0.02, 9);
    expect(found).toMatchObject({ notObservable: [], degreesOfFreedom: 18, outliers: [] });
    expect(found.condition).toBeLessThan(20);
  });

  test('four touches give one radius, and what they cannot tell is said', () => {
    const four = [0, 120, 240].map((azimuth) => ({ azimuth, elevation: 0 }));
    const found = calibrated(
      touched({ lateral: 1.98, axial: 1.98 }, [{ azimuth: 0, elevation: -90 }, ...four]),
    );
    expect(found.lateralRadius).toBeCloseTo(1.98, 9);
    expect(found).toMatchObject({ axialRadius: null, notObservable: ['axial', 'order-3'] });
  });

  test('z of the lowest point of the ball moves the centre alone', () => {
    const touches = touched({ lateral: 1.98, axial: 1.995 });
    const low = touches.map((touch) => ({ ...touch, z: touch.z - 2 }));
    expect(calibrated(low).lateralRadius).toBeCloseTo(1.98, 9);
    expect(calibrated(low).axialRadius).toBeCloseTo(1.995, 9);
    expect(calibrated(low).centre[2]).toBeCloseTo(centre[2] - 2, 9);
  });
});

test('an outlier is named and stays', () => {
  const next = noise(3, 0.0005);
  const touches = touched({ lateral: 1.98, axial: 1.99, noise: next });
  const off = touches.map((touch) => (touch.row === 9 ? { ...touch, x: touch.x + 0.01 } : touch));
  expect(calibrated(off).outliers).toEqual([9]);
});

test('the scatter of many calibrations is the stated uncertainty, lateral and axial', () => {
  const next = noise(31, 0.001);
  let [lateral, axial, statedLateral, statedAxial] = [0, 0, 0, 0];
  for (let run = 0; run < 60; run += 1) {
    const found = calibrated(touched({ lateral: 1.98, axial: 1.99, noise: next }));
    lateral += (found.effectiveDiameter - 3.96) ** 2;
    axial += ((found.axialRadius ?? NaN) - 1.99) ** 2;
    statedLateral += (found.uncertainty?.standardUncertainty ?? NaN) ** 2;
    statedAxial += (found.axialUncertainty?.standardUncertainty ?? NaN) ** 2;
  }
  // Four standard deviations of the ratio of 60 squares.
  for (const ratio of [lateral / statedLateral, axial / statedAxial]) {
    expect(ratio).toBeGreaterThan(1 - 4 * Math.sqrt(2 / 60));
    expect(ratio).toBeLessThan(1 + 4 * Math.sqrt(2 / 60));
  }
});

test('the design foresees what the calibration then says', () => {
  const design = designSphere({ standardDeviation: 0.001, degreesOfFreedom: null }, 0.001);
  const next = noise(5, 0.001);
  const found = calibrated(touched({ lateral: 1.98, axial: 1.99, noise: next }), 0.001);
  const s = found.residualStandardDeviation ?? NaN;
  const bare = (u: number, reference: number) => Math.sqrt(u ** 2 - reference ** 2);
  expect(bare(found.uncertainty?.standardUncertainty ?? NaN, 0.0005) / s).toBeCloseTo(
    bare(design.lateral.standardUncertainty, 0.0005) / 0.001,
    3,
  );
});

describe('approaches that do not belong to the coordinates', () => {
  const touches = touched({ lateral: 1.98, axial: 1.99 });
  const said = (change: (touch: SphereTouch) => Partial<SphereTouch>) =>
    implausibleSphere(touches.map((touch) => ({ ...touch, ...change(touch) })));

  test('right ones are left alone', () => {
    expect(said(() => ({}))).toBeNull();
  });

  test('away from the sphere, upwards, in radians, clockwise, in one plane', () => {
    expect(said(({ azimuth, elevation }) => ({ azimuth: azimuth + 180, elevation: -elevation }))).toEqual({
      kind: 'other-kind',
    });
    expect(said(({ elevation }) => ({ elevation: -elevation }))).toEqual({ kind: 'upwards' });
    const radian = Math.PI / 180;
    expect(
      said(({ azimuth, elevation }) => ({ azimuth: azimuth * radian, elevation: elevation * radian })),
    ).toEqual({ kind: 'directions', reading: { as: 'radians' } });
    expect(said(({ azimuth }) => ({ azimuth: 10 - azimuth }))).toEqual({
      kind: 'directions',
      reading: { as: 'clockwise' },
    });
    expect(said(() => ({ z: 0 }))).toEqual({ kind: 'collinear' });
  });
});
