import { expect, test } from 'vitest';
import { derivedError } from '../../server/probe/derivedError.ts';
import { effectiveRadius, meanPreTravel } from '../../server/probe/effectiveRadius.ts';
import { predictedPreTravel } from '../../server/probe/tripModel.ts';
import { aProbe } from '../probe/aProbe.ts';
import { derived, touch } from '../probe/aTouch.ts';
import { named, referenceCase } from './referenceCase.ts';

const lobed = referenceCase<{ R: number; a: number; n: number[]; phi_deg: number[] }, { diameter: number }>(
  'LOB-2PT',
);

test(`${named(lobed)}: two opposite effective radii`, () => {
  const { R, a, n, phi_deg } = lobed.inputs;
  for (const order of n) {
    const probe = aProbe({
      tipDiameter: 3 * R,
      calibration: { effectiveDiameter: 2 * R, harmonics: [{ order, cosine: a, sine: 0 }] },
    });
    for (const degrees of phi_deg) {
      const across =
        effectiveRadius(probe, degrees, 1, 'towards') + effectiveRadius(probe, degrees + 180, 1, 'towards');
      expect(Math.abs(across - lobed.expected.diameter)).toBeLessThan(1e-12);
    }
  }
});

test(`${named(lobed)}: a bore's diameter from two touches is free of odd lobes`, () => {
  for (const order of lobed.inputs.n) {
    const probe = aProbe({ calibration: { harmonics: [{ order, cosine: lobed.inputs.a, sine: 0.001 }] } });
    const bore = derived([touch(1, 'x', 1), touch(-1, 'x', -1)], 1);
    expect(derivedError(probe, bore).bias).toBeCloseTo(0, 12);
  }
});

const secant = referenceCase<{ low_um: number; N: number; R: number }, { cx: number; r: number }>(
  'LOB-SEC-4',
);

test(`${named(secant)}: the trip model's bore, touched from inside in four directions`, () => {
  const { low_um, R } = secant.inputs;
  const unit = aProbe({ calibration: null, machine: { tripLatency: 0 } });
  // Preload scaled so that the low direction has the case's pre-travel.
  const preload = (unit.seat.preload * low_um) / 1000 / predictedPreTravel(unit, 0);
  const probe = aProbe({
    calibration: null,
    tipDiameter: 2 * R,
    machine: { tripLatency: 0 },
    seat: { ...unit.seat, preload },
  });
  const radius = (degrees: number) => effectiveRadius(probe, degrees, 1, 'towards');
  const middle = (radius(0) - radius(180)) / 2;
  const mean = (radius(0) + radius(180) + radius(90) + radius(270)) / 4;
  // The case fits a circle to the four points; the halved differences agree with it to the second order of 0.004/10.
  expect(Math.abs(middle - secant.expected.cx)).toBeLessThan(1e-6);
  expect(Math.abs(mean - secant.expected.r)).toBeLessThan(1e-6);
  const centre = derived([touch(0.5, 'x', 1), touch(0.5, 'x', -1)]);
  expect(derivedError(probe, centre).bias).toBeCloseTo(-middle, 12);
});

test('a nominal 5/32 in tip that calibrates to 0.1548 in has a mean pre-travel of 0.00073 in (common practice, no source)', () => {
  const inch = 25.4;
  const probe = aProbe({
    tipDiameter: (5 / 32) * inch,
    calibration: { effectiveDiameter: 0.1548 * inch },
  });
  expect(meanPreTravel(probe) / inch).toBeCloseTo(0.00073, 5);
});

test('a touch in every direction but one disagrees with any single diameter: supports at 120°, axes at 90° (common practice, no source)', () => {
  const probe = aProbe({ calibration: null });
  const axes = [0, 90, 180, 270].map((degrees) => effectiveRadius(probe, degrees, 1, 'towards'));
  expect(Math.max(...axes) - Math.min(...axes)).toBeGreaterThan(0.003);
});
