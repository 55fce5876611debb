import { describe, expect, test } from 'vitest';
import { effectiveRadius } from '../../server/probe/effectiveRadius.ts';
import type { StemMaterial } from '../../server/probe/materials.ts';
import type { Probe } from '../../server/probe/probe.ts';
import { overtravelLimit, stoppingDistance } from '../../server/probe/stoppingDistance.ts';
import { predictedPreTravel } from '../../server/probe/tripModel.ts';
import { probeOf } from '../../server/profile/probeOf.ts';
import { builtInProfile } from '../../server/profile/profile.ts';
import { aProbe } from './aProbe.ts';

const inch = 25.4;

function withStylus(length: number, stemDiameter: number, material: StemMaterial): Probe {
  return aProbe({
    calibration: null,
    stylus: { length, stemDiameter, material },
    seat: { radius: 8, preload: 2.5, angle: 0 },
  });
}

/**
 * Calibrated by the mean of the four axis directions, a bore's centre along one axis is off by half of the difference
 * between the opposite directions; the directions disagree by the whole.
 */
function disagreement(probe: Probe): number {
  const radius = (degrees: number) => effectiveRadius(probe, degrees, 1, 'towards');
  return Math.max(Math.abs(radius(0) - radius(180)), Math.abs(radius(90) - radius(270)));
}

describe('opposite directions against the mean of four (common practice, no source)', () => {
  test('a stiff short stylus disagrees by under 0.0005 in', () => {
    expect(disagreement(withStylus(30, 3, 'tungsten-carbide'))).toBeLessThan(0.0005 * inch);
  });

  test('a slender one disagrees by much more', () => {
    const slender = disagreement(withStylus(100, 2, 'steel'));
    expect(slender).toBeGreaterThan(10 * 0.0005 * inch);
    expect(slender / disagreement(withStylus(30, 3, 'tungsten-carbide'))).toBeGreaterThan(50);
  });
});

describe('supports at 120° against axes at 90° (common practice, no source)', () => {
  const probe = withStylus(50, 2, 'tungsten-carbide');
  const preTravel = [0, 90, 180, 270].map((degrees) => predictedPreTravel(probe, degrees));

  test('the four axes have three different pre-travels', () => {
    const [xPlus = NaN, yPlus = NaN, xMinus = NaN, yMinus = NaN] = preTravel;
    expect(xMinus / xPlus).toBeCloseTo(2, 9);
    // 90° is 30° from a low-force direction on both sides.
    expect(yPlus / xPlus).toBeCloseTo(1 / Math.cos(Math.PI / 6), 9);
    expect(yMinus).toBeCloseTo(yPlus, 12);
  });

  test('so no single diameter is right in every direction: the best one is still wrong by half of the spread', () => {
    const radii = preTravel.map((way) => probe.tipDiameter / 2 - way);
    const spread = Math.max(...radii) - Math.min(...radii);
    const worst = (diameter: number) => Math.max(...radii.map((radius) => Math.abs(radius - diameter / 2)));
    const tried = Array.from({ length: 400 }, (_, index) => worst(probe.tipDiameter - index * 0.0002));
    expect(Math.min(...tried)).toBeGreaterThanOrEqual(spread / 2 - 1e-9);
    expect(spread).toBeGreaterThan(0.005);
  });

  test('whatever way the seat stands', () => {
    for (let angle = 0; angle < 120; angle += 5) {
      const seated = { ...probe, seat: { ...probe.seat, angle } };
      const along = [0, 90, 180, 270].map((degrees) => predictedPreTravel(seated, degrees));
      expect(Math.max(...along) / Math.min(...along)).toBeGreaterThan(1.3);
    }
  });
});

describe('feeds of about 100, 30 and 1.5 in/min for positioning, search and the touch that counts (common practice, no source)', () => {
  const probe = probeOf(builtInProfile);
  const speed = (inchesPerMinute: number) => (inchesPerMinute * inch) / 60;
  const stops = (inchesPerMinute: number) => stoppingDistance(probe, speed(inchesPerMinute));
  const { limit, allowed } = overtravelLimit(probe, [1, 0, 0]);

  test('positioning would break the stylus, so it never touches', () => {
    expect(stops(100)).toBeGreaterThan(limit);
  });

  test('the search stops within what the probe bears, with the safety factor', () => {
    expect(stops(30)).toBeLessThan(allowed);
    expect(stops(30)).toBeGreaterThan(0.2);
  });

  test('the touch that counts loses under a micrometre by the latch, the search ten times that', () => {
    const lost = (inchesPerMinute: number) => speed(inchesPerMinute) * probe.machine.latchPeriod;
    expect(lost(1.5)).toBeLessThan(0.001);
    expect(lost(30)).toBeGreaterThan(0.01);
  });

  test('the built-in feeds are of that order and of that sequence', () => {
    const { positioning, search, measuring } = builtInProfile.feeds;
    expect(positioning).toBeGreaterThan(search);
    expect(search).toBeGreaterThan(measuring);
    expect(measuring / inch).toBeCloseTo(1.5, 0);
    expect(stops(search / inch)).toBeLessThan(allowed);
  });
});
