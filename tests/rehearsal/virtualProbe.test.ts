import { describe, expect, test } from 'vitest';
import { named, referenceCase } from '../published/referenceCase.ts';
import { idealProbe, rehearsed } from './rehearsed.ts';

const bored = {
  start: [0, 0, -10],
  part: [
    { add: 'block', min: [-80, -80, -30], max: [80, 80, 0] },
    { cut: 'bore', center: [0, 0], diameter: 44, top: 0, depth: 30 },
  ],
};
/** Outwards from the middle of a bore of 44 mm with a ball of 4 mm: where the control latches, by direction, mm. */
function reach(profile: object, directions: readonly number[], before = ''): number[] {
  const touches = directions.map((degrees) => {
    const angle = (degrees * Math.PI) / 180;
    return `G38.2 X${decimals(30 * Math.cos(angle))} Y${decimals(30 * Math.sin(angle))} F60\nG0 X0 Y0\n`;
  });
  const program = `G21 G90 G94 G17 G40\n${before}${touches.join('')}M2`;
  const { undisturbed } = rehearsed(program, bored, { profile, options: { faults: [] } });
  expect(undisturbed.outcome.name).toBe('completed');
  return undisturbed.record.touches.map(({ latched: [x, y] }) => Math.hypot(x, y));
}
/** No exponent: E is a word of its own. */
const decimals = (value: number) => value.toFixed(12);

/** Of a ball that trips at first touch. */
const first = 20;
const twelve = Array.from({ length: 12 }, (_, i) => 30 * i);

describe('a probe that nobody calibrated trips by the trip model', () => {
  const bending = referenceCase<
    { Fs_N: number; Rc_mm: number; L_mm: number; d_mm: number; E_MPa: number },
    { pt_low_um: number; pt_high_um: number }
  >('PRB-PTV-1');
  const { Fs_N: preload, Rc_mm: radius, L_mm: length, d_mm: stemDiameter } = bending.inputs;
  const { calibration: _, ...bare } = idealProbe.probe;
  const profile = {
    probe: {
      ...bare,
      tipDiameter: 4,
      seat: { radius, preload, angle: 0 },
      stylus: { length, stemDiameter, material: 'tungsten-carbide' },
    },
    machine: idealProbe.machine,
  };

  test(named(bending), () => {
    const trips = reach(profile, twelve);
    for (const [i, at] of trips.entries()) {
      const isLow = i % 4 === 0;
      const isHigh = i % 4 === 2;
      const push = (at - first) * 1000;
      if (isLow) expect(push, `${30 * i} degrees`).toBeCloseTo(bending.expected.pt_low_um, 4);
      else if (isHigh) expect(push, `${30 * i} degrees`).toBeCloseTo(bending.expected.pt_high_um, 4);
      // Half-way: the low force over cos 30 degrees.
      else expect(push).toBeCloseTo(bending.expected.pt_low_um / Math.cos(Math.PI / 6), 4);
    }
  });

  test('M19 turns the seat with the spindle', () => {
    const turned = reach(profile, twelve, 'M19 R60\n');
    const straight = reach(profile, twelve);
    for (const [i, at] of turned.entries()) expect(at).toBeCloseTo(straight[(i + 10) % 12] ?? 0, 9);
    expect(turned[0]).not.toBeCloseTo(straight[0] ?? 0, 4);
  });

  test('latency adds its way at the speed of the touch', () => {
    const late = { ...profile, machine: { ...profile.machine, tripLatency: 0.002 } };
    // 60 mm/min is 1 mm/s.
    expect((reach(late, [0])[0] ?? 0) - (reach(profile, [0])[0] ?? 0)).toBeCloseTo(0.002, 9);
  });
});

describe('a calibrated probe trips by its harmonics, whatever the trip model says', () => {
  const harmonics = [
    { order: 3, cosine: 0.004, sine: -0.002 },
    { order: 6, cosine: 0, sine: 0.001 },
  ];
  const calibration = { effectiveDiameter: 3.96, expandedUncertainty: 0, feed: 60, harmonics, spindle: 0 };
  const seat = { radius: 20, preload: 9, angle: 17 };
  const profile = { ...idealProbe, probe: { ...idealProbe.probe, calibration, seat } };

  test('r(θ) is half the effective diameter and the lobes', () => {
    for (const [i, at] of reach(profile, twelve).entries()) {
      const angle = (30 * i * Math.PI) / 180;
      const lobes = 0.004 * Math.cos(3 * angle) - 0.002 * Math.sin(3 * angle) + 0.001 * Math.sin(6 * angle);
      expect(at).toBeCloseTo(22 - (1.98 + lobes), 7);
    }
  });

  test('the lobes turn with the spindle from where it was calibrated', () => {
    const at90 = { ...profile, probe: { ...profile.probe, calibration: { ...calibration, spindle: 90 } } };
    const there = reach(at90, twelve, 'M19 R90\n');
    const straight = reach(profile, twelve);
    for (const [i, at] of there.entries()) expect(at).toBeCloseTo(straight[i] ?? 0, 9);
    const away = reach(at90, twelve, 'M19 R0\n');
    for (const [i, at] of away.entries()) expect(at).toBeCloseTo(straight[(i + 3) % 12] ?? 0, 9);
  });
});

test('run-out goes round with the spindle and falls out of two touches half a turn apart', () => {
  const profile = { ...idealProbe, probe: { ...idealProbe.probe, runout: 0.03 } };
  const at = (spindle: number) => reach(profile, [0, 90, 180, 270], `M19 R${spindle}\n`);
  const [here, there] = [at(0), at(180)];
  const spread = Math.max(...here) - Math.min(...here);
  expect(spread).toBeCloseTo(0.06, 7);
  for (const [i, one] of here.entries()) expect((one + (there[i] ?? 0)) / 2).toBeCloseTo(first, 9);
  // A quarter of a turn brings each side what the one before it had.
  for (const [i, quarter] of at(90).entries()) expect(quarter).toBeCloseTo(here[(i + 3) % 4] ?? 0, 9);
});
