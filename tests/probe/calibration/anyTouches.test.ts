import fc from 'fast-check';
import { expect, test } from 'vitest';
import { calibrate } from '../../../server/probe/calibration/calibrate.ts';
import { calibrateFlat } from '../../../server/probe/calibration/flat.ts';
import { implausibleDirections } from '../../../server/probe/calibration/implausible.ts';
import { implausibleSphere } from '../../../server/probe/calibration/implausibleSphere.ts';
import { calibrateSphere } from '../../../server/probe/calibration/sphere.ts';
import { verifyCalibration } from '../../../server/probe/calibration/verify.ts';
import { aProbe } from '../aProbe.ts';

const coordinate = fc.oneof(
  fc.constantFrom(0, 10, -10, 1e6, -1e6, 1e-9),
  fc.double({ min: -1e6, max: 1e6, noNaN: true }),
);
const direction = fc.oneof(
  fc.constantFrom(0, 90, 180, 270, 360, -90),
  fc.double({ min: -720, max: 720, noNaN: true }),
);
const optional = (values: fc.Arbitrary<number>) => fc.oneof(fc.constant(null), values);

const touch = fc.record({
  direction,
  x: coordinate,
  y: coordinate,
  speed: optional(fc.constantFrom(1, 2, 1e-6)),
  spindle: optional(fc.constantFrom(0, 90, 180, 360)),
});
const numbered = <Touch>(touches: readonly Touch[]) =>
  touches.map((each, index) => ({ ...each, row: index + 2 }));
const options = { orders: [3, 6], tipDiameter: 4, repeatability: null };

/** Every number in a result is a number. */
function numbersAreNumbers(value: unknown): boolean {
  if (typeof value === 'number') return !Number.isNaN(value);
  if (typeof value !== 'object' || value === null) return true;
  return Object.values(value).every(numbersAreNumbers);
}

test('whatever was touched, there is a result of numbers or a refusal, never an exception', () => {
  fc.assert(
    fc.property(
      fc.array(touch, { minLength: 1, maxLength: 9 }),
      fc.constantFrom('ring', 'plug', 'gap', 'block'),
      (each, kind) => {
        const touches = numbered(each);
        const reference = { kind, size: 25, expandedUncertainty: 0.001 } as const;
        if (touches.length >= 3)
          expect(numbersAreNumbers(implausibleDirections(touches, reference))).toBe(true);
        expect(numbersAreNumbers(calibrate(touches, reference, options))).toBe(true);
        expect(numbersAreNumbers(calibrateFlat(touches, reference, options))).toBe(true);
        expect(numbersAreNumbers(verifyCalibration(touches, reference, aProbe(), 0))).toBe(true);
      },
    ),
    { numRuns: 60 },
  );
});

test('and so on a sphere', () => {
  const place = fc.record({
    azimuth: direction,
    elevation: fc.oneof(fc.constantFrom(-90, 0, 90), fc.double({ min: -90, max: 90, noNaN: true })),
    x: coordinate,
    y: coordinate,
    z: coordinate,
    speed: fc.constant(null),
  });
  fc.assert(
    fc.property(fc.array(place, { minLength: 4, maxLength: 12 }), (each) => {
      const touches = numbered(each);
      const reference = { kind: 'sphere', size: 25, expandedUncertainty: 0 } as const;
      expect(numbersAreNumbers(implausibleSphere(touches))).toBe(true);
      expect(numbersAreNumbers(calibrateSphere(touches, reference, options))).toBe(true);
    }),
    { numRuns: 50 },
  );
});
