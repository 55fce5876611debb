import { describe, expect, test } from 'vitest';
import { referenceCase } from '../published/referenceCase.ts';
import { ran } from './fakeTerminal.ts';

const { inputs, expected } = referenceCase<
  { Fs_N: number; Rc_mm: number; L_mm: number; d_mm: number },
  { pt_low_um: number; pt_high_um: number }
>('PRB-PTV-1');

/** The probe of that case; its tip is our own. */
const profile = {
  probe: {
    tipDiameter: 4,
    stylus: { length: inputs.L_mm, stemDiameter: inputs.d_mm, material: 'tungsten-carbide' },
    seat: { radius: inputs.Rc_mm, preload: inputs.Fs_N, angle: 30 },
    calibration: { effectiveDiameter: 3.98, expandedUncertainty: 0.002, feed: 40 },
  },
};

const files = (text: object = profile) => ({ '/shop/probewright.json': JSON.stringify(text) });

async function json(options: readonly string[] = [], text: object = profile) {
  const { out } = await ran(['predict', '--format', 'json', ...options], { files: files(text) });
  return JSON.parse(out);
}

describe('JSON', () => {
  test('the published stem, calibrated or not (PRB-PTV-1, statics of three supports and a bent stem)', async () => {
    const found = await json();
    expect(found.preTravel.low * 1000).toBeCloseTo(expected.pt_low_um, 9);
    expect(found.preTravel.high * 1000).toBeCloseTo(expected.pt_high_um, 9);
    expect(found.force.high / found.force.low).toBeCloseTo(2, 12);
    expect(found.calibrated).toBe(false);
    expect(found.seatAngleKnown).toBe(true);
  });

  test('mean, uncertainty and lobes as in error-model.md, section 2', async () => {
    const { preTravel, standardUncertainty, effectiveDiameter, expandedUncertainty, harmonics } =
      await json();
    expect(preTravel.mean / preTravel.low).toBeCloseTo(1.2576, 5);
    expect(standardUncertainty).toBeCloseTo(preTravel.mean / Math.sqrt(3), 12);
    expect(effectiveDiameter).toBeCloseTo(4 - 2 * preTravel.mean, 12);
    expect(expandedUncertainty).toBeCloseTo(1.959964 * 2 * standardUncertainty, 7);
    const shares = harmonics.map(
      (each: { cosine: number; sine: number }) => Math.hypot(each.cosine, each.sine) / preTravel.mean,
    );
    [0.27514, 0.10431, 0.05366].forEach((share, index) => {
      expect(shares[index]).toBeCloseTo(share, 5);
    });
  });

  test('the harmonics of the radius, turned with the seat, sum to nearly what each direction has', async () => {
    const { harmonics, effectiveDiameter, directions, preTravel } = await json();
    for (const { direction, effectiveRadius } of directions) {
      const lobes = harmonics.reduce(
        (sum: number, { order, cosine, sine }: Record<'order' | 'cosine' | 'sine', number>) => {
          const angle = (order * direction * Math.PI) / 180;
          return sum + cosine * Math.cos(angle) + sine * Math.sin(angle);
        },
        0,
      );
      // The axes stand at corners and bottoms of the pattern: orders above 9 are a sixth of the mean pre-travel there.
      expect(Math.abs(effectiveDiameter / 2 + lobes - effectiveRadius)).toBeLessThan(0.17 * preTravel.mean);
    }
  });

  test('another stylus: half the length is a quarter of the pre-travel (PRB-PTV-SCALE)', async () => {
    const whole = await json();
    const half = await json(['--length', '25']);
    expect(whole.preTravel.mean / half.preTravel.mean).toBeCloseTo(4, 9);
    expect((await json(['--length', '1in'])).inputs.stylus.length).toBeCloseTo(25.4, 12);
    expect((await json(['--material', 'steel'])).preTravel.mean / whole.preTravel.mean).toBeCloseTo(
      620 / 207,
      9,
    );
  });
});

describe('text', () => {
  test('says that it is a prediction, and all that is left out', async () => {
    const { out, status } = await ran(['predict'], { files: files() });
    expect(status).toBe(0);
    expect(out).toContain('Predicted, not calibrated  profile probewright.json\n');
    expect(out).toContain('pre-travel        6.0 µm least, 12.0 µm largest, 7.5 µm mean');
    expect(out).toContain('effective diam.   3.985 mm ±17.0 µm (U, k = 1.96)');
    const words = out.replace(/\s+/g, ' ');
    for (const gap of [
      'compliance of module',
      'friction and early opening',
      'oblique touches',
      'form of ball',
      'trips by acceleration',
      'drift since',
    ])
      expect(words).toContain(gap);
  });

  test('an unknown seat angle and a missing profile are said', async () => {
    const { out } = await ran(['predict'], { files: {} });
    expect(out).toContain('built-in values, no profile found');
    expect(out.replace(/\s+/g, ' ')).toContain('unknown: a low-force direction is taken to be X+');
  });

  test('a stem thicker than the tip is said', async () => {
    const { out, status } = await ran(['predict', '--stem-diameter', '5'], { files: files() });
    expect(status).toBe(0);
    expect(out).toContain('the stem is thicker than the tip by 1.000 mm');
    expect((await ran(['predict'], { files: files() })).out).not.toContain('thicker');
  });

  test('a shop in inches reads inches', async () => {
    const { out } = await ran(['predict'], { files: files({ units: 'inch' }) });
    expect(out).toMatch(/tip +0\.1575 in/);
  });
});

test.each([
  [['--length', '0'], '--length 0: a length over 0'],
  [['--stem-diameter', 'thick'], '--stem-diameter thick: a length over 0'],
  [['--material', 'wood'], 'Allowed choices'],
  [['--stem-diameter', '0.001'], 'would bend by more than the radius of the tip before the probe trips'],
])('%j is refused with 2', async (options, message) => {
  const result = await ran(['predict', ...options], { files: files() });
  expect(result).toMatchObject({ status: 2, out: '' });
  expect(result.error).toContain(message);
});
