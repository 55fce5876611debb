import { describe, expect, test } from 'vitest';
import { implausibleDirections, implausibleSize } from '../../../server/probe/calibration/implausible.ts';
import type { CalibrationTouch, Reference } from '../../../server/probe/calibration/touches.ts';
import { noise } from './noise.ts';
import { evenly, touched } from './touched.ts';

const ring: Reference = { kind: 'ring', size: 25, expandedUncertainty: 0 };
const plug: Reference = { ...ring, kind: 'plug' };

const said = (touches: readonly CalibrationTouch[], read: (direction: number) => number) =>
  touches.map((touch) => ({ ...touch, direction: read(touch.direction) }));

describe('directions that do not belong to the coordinates', () => {
  // Uneven, so that no reading is the same as another by symmetry.
  const layout = [0, 30, 75, 130, 190, 250, 320].map((direction) => ({ direction }));
  const touches = touched({}, layout);

  test('right ones are left alone, rough ones too', () => {
    expect(implausibleDirections(touches, ring)).toBeNull();
    expect(
      implausibleDirections(
        said(touches, (direction) => direction + 15),
        ring,
      ),
    ).toBeNull();
    expect(implausibleDirections(touched({ kind: 'plug' }, layout), plug)).toBeNull();
  });

  test.each([
    ['radians', (direction: number) => (direction * Math.PI) / 180, { as: 'radians' }],
    ['clockwise', (direction: number) => 360 - direction, { as: 'clockwise' }],
    ['clockwise from Y+, or x and y swapped', (direction: number) => 90 - direction, { as: 'swapped' }],
  ])('%s', (_, read, reading) => {
    expect(implausibleDirections(said(touches, read), ring)).toEqual({ kind: 'directions', reading });
  });

  test('x and y swapped', () => {
    const swapped = touches.map((touch) => ({ ...touch, x: touch.y, y: touch.x }));
    expect(implausibleDirections(swapped, ring)).toEqual({ kind: 'directions', reading: { as: 'swapped' } });
  });

  test('0° elsewhere', () => {
    const found = implausibleDirections(
      said(touches, (direction) => direction - 90),
      ring,
    );
    expect(found).toMatchObject({ kind: 'directions', reading: { as: 'turned' } });
    if (found?.kind !== 'directions' || found.reading.as !== 'turned') throw new Error('not turned');
    expect(found.reading.degrees).toBeCloseTo(90, 6);
  });

  test('a plug taken for a ring, and the other way round', () => {
    expect(implausibleDirections(touched({ kind: 'plug' }, layout), ring)).toEqual({ kind: 'other-kind' });
    expect(implausibleDirections(touches, plug)).toEqual({ kind: 'other-kind' });
  });

  test('one mistyped direction is named by its line', () => {
    const wrong = touches.map((touch) => (touch.row === 4 ? { ...touch, direction: 175 } : touch));
    expect(implausibleDirections(wrong, ring)).toMatchObject({ kind: 'rows', rows: [{ row: 4 }] });
  });

  test('directions at random make no sense', () => {
    const shuffled = [190, 0, 320, 30, 250, 130, 75];
    const wrong = touches.map((touch, index) => ({ ...touch, direction: shuffled[index] ?? 0 }));
    expect(implausibleDirections(wrong, ring)).toEqual({ kind: 'no-sense' });
  });

  test('collinear touches and touches in one place', () => {
    const line = touches.map((touch) => ({ ...touch, y: 2 * touch.x }));
    expect(implausibleDirections(line, ring)).toEqual({ kind: 'collinear' });
    const place = touches.map((touch) => ({ ...touch, x: 1, y: 1 }));
    expect(implausibleDirections(place, ring)).toEqual({ kind: 'collinear' });
  });

  test('a ring hardly larger than the tip is no fault: the stylus need not start in the middle', () => {
    const next = noise(3, 0.05);
    const small = touched({ size: 4.6, noise: next }, evenly(8));
    expect(implausibleDirections(small, { ...ring, size: 4.6 })).toBeNull();
  });
});

describe('sizes in wrong units', () => {
  // A tip of 4 mm in a ring of 25 mm: the stylus centre stands 10.52 mm off the middle.
  const radiusWith = (size: number) => size / 2 - 10.52;

  test('possible ones are left alone', () => {
    expect(implausibleSize(1.98, ring, 4)).toBeNull();
    expect(implausibleSize(1.98, ring, null)).toBeNull();
  });

  test('a ring of 0.984 in where mm was said', () => {
    const reference = { ...ring, size: 0.984 };
    expect(implausibleSize(radiusWith(0.984), reference, 4)).toMatchObject({
      kind: 'size',
      cure: { what: 'reference', is: 'inch' },
    });
    expect(implausibleSize(radiusWith(0.984), reference, null)).toMatchObject({ kind: 'size', cure: null });
  });

  test('a ring in mm where inches were said, coordinates in inches, a tip in inches', () => {
    expect(implausibleSize(radiusWith(25 * 25.4), { ...ring, size: 25 * 25.4 }, 4)).toMatchObject({
      cure: { what: 'reference', is: 'mm' },
    });
    expect(implausibleSize(12.5 - 10.52 / 25.4, ring, 4)).toMatchObject({
      cure: { what: 'coordinates', is: 'inch' },
    });
    expect(implausibleSize(1.98, ring, 0.157)).toMatchObject({ cure: { what: 'tip', is: 'inch' } });
  });

  test('coordinates in inches, the tip not known: none fills nine tenths of its ring', () => {
    expect(implausibleSize(12.5 - 10.52 / 25.4, ring, null)).toMatchObject({ kind: 'size', cure: null });
    expect(implausibleSize(0.49 - 10.52 / 25.4, { ...ring, size: 0.98 }, null)).toBeNull();
    expect(implausibleSize(3, { ...ring, size: 7 }, null)).toBeNull();
  });

  test('a ring that is 40 µm off in radius names what the touches point to', () => {
    const found = implausibleSize(radiusWith(25.4), { ...ring, size: 25.4 }, 4);
    if (found?.kind !== 'size') throw new Error('possible');
    expect(found.cure).toBeNull();
    // The pre-travel is not known: the tip's actual radius stands in for the effective one.
    expect(found.expected).toBeCloseTo(25.04, 6);
  });
});
