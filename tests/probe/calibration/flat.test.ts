import { describe, expect, test } from 'vitest';
import { calibrateFlat, type FlatCalibration } from '../../../server/probe/calibration/flat.ts';
import type { CalibrationTouch, Reference } from '../../../server/probe/calibration/touches.ts';
import { type Truth, touched } from './touched.ts';

const lobes = [
  { order: 2, cosine: 0.001, sine: 0 },
  { order: 3, cosine: 0.004, sine: 0 },
];

function calibrated(
  touches: readonly CalibrationTouch[],
  kind: 'gap' | 'block',
  stated: number | null = null,
) {
  const reference: Reference = { kind, size: 25, expandedUncertainty: 0.001 };
  return calibrateFlat(touches, reference, {
    tipDiameter: 4,
    repeatability: stated === null ? null : { standardDeviation: stated, degreesOfFreedom: null },
  });
}

function axis(truth: Truth, directions: readonly number[]): CalibrationTouch[] {
  return touched(
    { lobes, ...truth },
    directions.map((direction) => ({ direction })),
  );
}

describe.each(['gap', 'block'] as const)('a %s', (kind) => {
  test('gives the sum of the two radii: odd lobes cancel, even ones are in it', () => {
    const found = calibrated(axis({ kind }, [0, 180]), kind) as FlatCalibration;
    expect(found.effectiveDiameter).toBeCloseTo(2 * (1.98 + 0.001), 12);
    expect(found).toMatchObject({ axis: 0, touches: [1, 1], uncertainty: null, repeatability: null });
    // The middle is off by the odd lobe (error-model.md, section 4: −a₃).
    expect(found.middle).toBeCloseTo(3 - 0.004, 12);
  });

  test('along Y, from either side first', () => {
    for (const directions of [
      [90, 270],
      [270, 90],
    ]) {
      const found = calibrated(axis({ kind }, directions), kind) as FlatCalibration;
      expect(found.axis).toBeCloseTo(90, 9);
      expect(found.middle).toBeCloseTo(-1, 12);
    }
  });

  test('has s from repeated touches, else the stated one', () => {
    const errors = [0.001, -0.001, 0.002, 0];
    const noise = (index: number) => errors[index] ?? 0;
    const found = calibrated(axis({ kind, noise }, [0, 0, 180, 180]), kind) as FlatCalibration;
    // Two pairs 0.002 apart: s² = (2·0.001² + 2·0.001²)/2.
    expect(found.repeatability?.standardDeviation).toBeCloseTo(Math.sqrt(2) * 0.001, 12);
    expect(found.repeatability?.degreesOfFreedom).toBe(2);
    expect(found.uncertainty?.standardUncertainty).toBeCloseTo(Math.hypot(Math.sqrt(2) * 0.001, 0.0005), 12);
    const stated = calibrated(axis({ kind }, [0, 180]), kind, 0.002) as FlatCalibration;
    expect(stated.uncertainty?.standardUncertainty).toBeCloseTo(Math.hypot(Math.sqrt(2) * 0.002, 0.0005), 12);
  });

  test('taken for the other', () => {
    const other = kind === 'gap' ? 'block' : 'gap';
    expect(calibrated(axis({ kind }, [0, 180]), other)).toEqual({ kind: 'other-kind' });
  });
});

describe('refused', () => {
  test('one face, another axis, radians, swapped columns, several feeds', () => {
    const gap = (directions: readonly number[]) => axis({ kind: 'gap' }, directions);
    expect(calibrated(gap([0, 0]), 'gap')).toEqual({ kind: 'one-face' });
    expect(calibrated(gap([0, 180, 90]), 'gap')).toEqual({ kind: 'several-axes', rows: [4], radians: false });
    const radians = gap([0, 180]).map((touch) => ({
      ...touch,
      direction: (touch.direction * Math.PI) / 180,
    }));
    expect(calibrated(radians, 'gap')).toMatchObject({ kind: 'several-axes', radians: true });
    const swapped = gap([0, 180]).map((touch) => ({ ...touch, x: touch.y, y: touch.x }));
    expect(calibrated(swapped, 'gap')).toEqual({ kind: 'directions', reading: { as: 'swapped' } });
    const feeds = gap([0, 180]).map((touch, index) => ({ ...touch, speed: index + 1 }));
    expect(calibrated(feeds, 'gap')).toEqual({ kind: 'mixed', what: 'feed' });
    const turned = gap([0, 180]).map((touch, index) => ({ ...touch, spindle: index }));
    expect(calibrated(turned, 'gap')).toEqual({ kind: 'mixed', what: 'spindle' });
  });

  test('a width in the wrong unit', () => {
    const touches = axis({ kind: 'gap' }, [0, 180]);
    const inch: Reference = { kind: 'gap', size: 25 / 25.4, expandedUncertainty: 0 };
    expect(calibrateFlat(touches, inch, { tipDiameter: 4, repeatability: null })).toMatchObject({
      kind: 'size',
      cure: { what: 'reference', is: 'inch' },
    });
  });
});
