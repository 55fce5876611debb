import { describe, expect, test } from 'vitest';
import type { CalibrationTouch, Reference } from '../../../server/probe/calibration/touches.ts';
import { type Verification, verifyCalibration } from '../../../server/probe/calibration/verify.ts';
import type { Harmonic } from '../../../server/probe/probe.ts';
import { aProbe } from '../aProbe.ts';
import { noise } from './noise.ts';
import { type Touched, type Truth, touched } from './touched.ts';

const harmonics: readonly Harmonic[] = [{ order: 3, cosine: 0.004, sine: 0 }];
const ring: Reference = { kind: 'ring', size: 25, expandedUncertainty: 0.001 };

function verified(
  touches: readonly CalibrationTouch[],
  lobes: readonly Harmonic[] | null = harmonics,
  reference = ring,
): Verification {
  const probe = aProbe({
    calibration: { effectiveDiameter: 3.96, expandedUncertainty: 0.002, coverageFactor: 2, harmonics: lobes },
    repeatability: { standardDeviation: 0.0005, degreesOfFreedom: 20, source: 'probe.repeatability' },
  });
  const result = verifyCalibration(touches, reference, probe, 0);
  if ('kind' in result) throw new Error(result.kind);
  return result;
}

const cross: readonly Touched[] = [0, 180, 90, 270].map((direction) => ({ direction }));
const turnedTo = (spindle: number): readonly Touched[] =>
  [0, spindle].flatMap((angle) => [0, 180].map((direction) => ({ direction, spindle: angle })));

const truth = (changes: Truth = {}): Truth => ({ radius: 1.98, lobes: harmonics, ...changes });

describe('drift', () => {
  test('none where nothing changed', () => {
    const result = verified(touched(truth(), cross));
    expect(result).toMatchObject({ verdict: 'holds', reasons: [], oneAxis: false });
    expect(result.drift).toBeCloseTo(0, 9);
  });

  test.each(['ring', 'plug', 'gap', 'block'] as const)('is found on a %s by two opposite touches', (kind) => {
    const [first, second] = cross;
    if (first === undefined || second === undefined) throw new Error('two touches');
    const touches = touched(truth({ kind, radius: 1.985 }), [first, second]);
    const result = verified(touches, harmonics, { ...ring, kind });
    expect(result.drift).toBeCloseTo(0.01, 9);
    expect(result).toMatchObject({ verdict: 'calibrate-again', reasons: ['drift'], oneAxis: true });
  });

  test('beyond U of the calibration and within chance: touch more', () => {
    const result = verified(touched(truth({ radius: 1.9812 }), cross.slice(0, 2)));
    expect(result.drift).toBeCloseTo(0.0024, 9);
    expect(result.detectable).toBeGreaterThan(0.0024);
    expect(result.verdict).toBe('touch-more');
  });

  test('has the uncertainty of its touches, the calibration and the reference: by hand', () => {
    const result = verified(touched(truth(), cross.slice(0, 2)));
    // Two touches: 2δ = sum of two, so 2s²; U_cal/k = 0.001, U_ref/2 = 0.0005.
    expect(result.standardUncertainty).toBeCloseTo(Math.hypot(Math.SQRT2 * 0.0005, 0.001, 0.0005), 12);
  });

  test.each([
    ['ring', 1],
    ['plug', -1],
  ] as const)(
    'touches off the middle of a %s show no drift and no turn where two axes are touched',
    (kind, sign) => {
      const off = cross.map(({ direction }, index): CalibrationTouch => {
        // 1 mm off the middle across each axis: the surface is met in another direction, with the radius of that one.
        const [command, aside] = [(direction * Math.PI) / 180, direction === 0 || direction === 90 ? 1 : -1];
        let normal = command;
        for (let round = 0; round < 40; round += 1)
          normal = command + Math.asin(aside / (12.5 - sign * (1.98 + 0.004 * Math.cos(3 * normal))));
        const out = 12.5 * sign - (1.98 + 0.004 * Math.cos(3 * normal));
        const [x, y] = [3 + out * Math.cos(normal), -1 + out * Math.sin(normal)];
        return { row: index + 2, direction, x, y, speed: null, spindle: null };
      });
      const result = verified(off, harmonics, { ...ring, kind });
      expect(result.drift).toBeCloseTo(0, 9);
      expect(result.residual?.standardDeviation).toBeCloseTo(0, 9);
      expect(result.axes.across[0]?.difference).toBeCloseTo(0, 9);
      for (const { across, expected } of result.axes.pairs) expect(across).toBeCloseTo(expected, 9);
    },
  );

  test('false alarms are about one in twenty', () => {
    const next = noise(9, 0.0005);
    let alarms = 0;
    const exact = { ...ring, expandedUncertainty: 0 };
    const probe = aProbe({
      calibration: { effectiveDiameter: 3.96, expandedUncertainty: 0, harmonics },
      repeatability: { standardDeviation: 0.0005, degreesOfFreedom: null, source: 'probe.repeatability' },
    });
    for (let run = 0; run < 400; run += 1) {
      const result = verifyCalibration(touched(truth({ noise: next }), cross), exact, probe, 0);
      if (!('kind' in result) && result.reasons.includes('drift')) alarms += 1;
    }
    expect(alarms / 400).toBeLessThan(0.05 + 4 * Math.sqrt((0.05 * 0.95) / 400));
    expect(alarms).toBeGreaterThan(0);
  });
});

describe('turned by 90°', () => {
  test('the spindle: the middle moves by the odd lobes as the calibration says', () => {
    const result = verified(touched(truth(), turnedTo(90)));
    const [reversal] = result.axes.reversals;
    // cos 3θ at 0° and cos 3(−90°): the middle stands off by −0.004, then by 0.
    expect(reversal?.shift).toBeCloseTo(0.004, 9);
    expect(reversal?.expected).toBeCloseTo(0.004, 9);
    expect(result.verdict).toBe('holds');
  });

  test('run-out that the calibration has not shows in the middle, and says how large it is at least', () => {
    const runout = [...harmonics, { order: 1, cosine: 0.006, sine: 0 }];
    const result = verified(touched(truth({ lobes: runout }), turnedTo(180)));
    expect(result.axes.reversals[0]?.leastAmplitude).toBeCloseTo(0.006, 9);
    expect(result).toMatchObject({ verdict: 'calibrate-again', reasons: ['lobing'] });
  });

  test('the directions: odd lobes do not show in diameters, even ones do', () => {
    const odd = verified(touched(truth({ lobes: harmonics }), cross), null);
    // Lobes that nobody knows of shift the middle by their 4 µm, and touches 4 µm off it are longer by nanometres.
    expect(odd.axes.across[0]?.difference).toBeCloseTo(0, 5);
    const even = verified(touched(truth({ lobes: [{ order: 2, cosine: 0.003, sine: 0 }] }), cross), null);
    expect(even.axes.across[0]?.difference).toBeCloseTo(-0.012, 9);
    expect(even.reasons).toContain('lobing');
  });
});

test('refused: no calibration, one touch, one side', () => {
  const bare = aProbe({ calibration: null });
  expect(verifyCalibration(touched({}, cross), ring, bare, null)).toEqual({ kind: 'not-calibrated' });
  expect(verifyCalibration(touched({}, cross.slice(0, 1)), ring, aProbe(), null)).toMatchObject({
    kind: 'too-few',
  });
  const same = [0, 0].map((direction) => ({ direction }));
  expect(verifyCalibration(touched({}, same), ring, aProbe(), null)).toEqual({ kind: 'one-face' });
});

test('touches repeated here say their own spread', () => {
  const next = noise(6, 0.0005);
  const result = verified(touched(truth({ noise: next }), [...cross, ...cross]));
  expect(result.spread).toMatchObject({ from: 'touches', degreesOfFreedom: 4 });
});
