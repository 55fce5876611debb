import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { measuringFeed, probeOf } from '../../server/profile/probeOf.ts';
import { builtInProfile } from '../../server/profile/profile.ts';
import { profileOf } from './aProfile.ts';

describe('units', () => {
  const lengths = (unit: number) => ({
    probe: {
      tipDiameter: 6 / unit,
      stylus: { length: 40 / unit, stemDiameter: 4 / unit, material: 'steel' },
      seat: { radius: 7 / unit, preload: 2, angle: 45 },
      overtravel: { lateral: 6 / unit, axial: 4 / unit },
      repeatability: 0.001 / unit,
      release: 0.2 / unit,
      runout: 0.003 / unit,
      calibration: {
        effectiveDiameter: 5.98 / unit,
        expandedUncertainty: 0.002 / unit,
        feed: 30 / unit,
        residualStandardDeviation: 0.0008 / unit,
        degreesOfFreedom: 5,
        harmonics: [{ order: 3, cosine: 0.001 / unit, sine: -0.002 / unit }],
      },
    },
    machine: {
      deceleration: 200 / unit,
      reactionTime: 0.02,
      resolution: 0.0005 / unit,
      positioningUncertainty: 0.008 / unit,
      travel: { x: 500 / unit, y: 400 / unit, z: 300 / unit },
      temperatureSpread: 3,
    },
    feeds: { positioning: 2000 / unit, search: 300 / unit, measuring: 35 / unit },
    placementUncertainty: 2 / unit,
  });

  test('a file in inches is the same probe as the file in mm', () => {
    const flat = (value: object) =>
      JSON.parse(JSON.stringify(value), (_, item) =>
        typeof item === 'number' ? Number(item.toPrecision(12)) : item,
      );
    const mm = profileOf({ units: 'mm', ...lengths(1) });
    const inch = profileOf({ units: 'inch', ...lengths(25.4) });
    expect(flat({ ...inch, units: 'mm' })).toEqual(flat(mm));
    expect(flat(probeOf(inch))).toEqual(flat(probeOf(mm)));
  });

  test('feeds per minute become mm/s', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 5000, noNaN: true }), (feed) => {
        const profile = profileOf({ probe: { calibration: { effectiveDiameter: 3.9, feed } } });
        expect(probeOf(profile).calibration?.speed).toBeCloseTo(feed / 60, 9);
        expect(measuringFeed(profile)).toBe(feed);
      }),
    );
  });
});

describe('repeatability', () => {
  const calibration = { effectiveDiameter: 3.9, residualStandardDeviation: 0.0007, degreesOfFreedom: 5 };
  const of = (probe: object) => probeOf(profileOf({ probe })).repeatability;

  test('is the stated one before the residual of the calibration, before the built-in one', () => {
    expect(of({ repeatability: 0.001, calibration })).toEqual({
      standardDeviation: 0.001,
      degreesOfFreedom: null,
      source: 'probe.repeatability',
    });
    expect(of({ calibration })).toEqual({
      standardDeviation: 0.0007,
      degreesOfFreedom: 5,
      source: 'probe.calibration.residualStandardDeviation',
    });
    expect(of({})).toEqual({
      standardDeviation: 0.002,
      degreesOfFreedom: null,
      source: 'probe.repeatability',
    });
  });
});

test('an uncertainty of the calibration that is not stated stays unknown, a stated 0 is 0', () => {
  const uncertainty = (calibration: object) =>
    probeOf(profileOf({ probe: { calibration } })).calibration?.expandedUncertainty;
  expect(uncertainty({ effectiveDiameter: 3.9 })).toBeNull();
  expect(uncertainty({ effectiveDiameter: 3.9, expandedUncertainty: 0 })).toBe(0);
});

test('the measuring feed of checks: the calibration’s, else a stated one, else unknown', () => {
  const feeds = { measuring: 50 };
  expect(measuringFeed(builtInProfile)).toBeNull();
  expect(measuringFeed(profileOf({ feeds: { search: 100 } }))).toBeNull();
  expect(measuringFeed(profileOf({ feeds }))).toBe(50);
  expect(measuringFeed(profileOf({ feeds, probe: { calibration: { effectiveDiameter: 3.9 } } }))).toBe(50);
  expect(
    measuringFeed(profileOf({ feeds, probe: { calibration: { effectiveDiameter: 3.9, feed: 30 } } })),
  ).toBe(30);
});
