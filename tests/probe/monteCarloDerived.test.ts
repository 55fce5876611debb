import { describe, expect, test } from 'vitest';
import { type DerivedValue, derivedError } from '../../server/probe/derivedError.ts';
import type { MonteCarloResult } from '../../server/probe/monteCarlo.ts';
import { drawnError } from '../../server/probe/monteCarloDerived.ts';
import type { Probe } from '../../server/probe/probe.ts';
import { studentQuantile } from '../../server/probe/quantiles.ts';
import { aProbe } from './aProbe.ts';
import { derived, touch } from './aTouch.ts';

const trials = 30_000;

function drawn(probe: Probe, value: DerivedValue, count = trials): MonteCarloResult {
  const found = drawnError(probe, value, { seed: 20_240_611, trials: count });
  if ('notDrawn' in found) throw new Error(found.notDrawn);
  return found;
}

const blind = aProbe({
  runout: 0.003,
  repeatability: { standardDeviation: 0.004, degreesOfFreedom: null, source: 'probe.repeatability' },
  calibration: { harmonics: null, expandedUncertainty: 0.01 },
  machine: { latchPeriod: 0.004, resolution: 0.005, temperatureSpread: 6 },
});
const harmonics = [
  { order: 1, cosine: 0.002, sine: 0.001 },
  { order: 3, cosine: -0.003, sine: 0.002 },
];
const lobed = aProbe({ calibration: { harmonics } });
const predicted = aProbe({ calibration: null });
const seatUnknown = aProbe({ calibration: null, seat: { radius: 7, preload: 1, angle: null } });

const values: Readonly<Record<string, DerivedValue>> = {
  'a surface in X+': derived([touch(1, 'x', 1)], 0.5),
  'a surface in Y−, nominal diameter': derived([touch(1, 'y', -1)], -0.5, { diameter: 4 }),
  'a surface without compensation': derived([touch(1, 'x', 1)]),
  'a bore centre in Y': derived([touch(0.5, 'y', 1), touch(0.5, 'y', -1)]),
  'a bore diameter': derived([touch(1, 'x', 1), touch(-1, 'x', -1)], 1, { size: 60 }),
  'a boss diameter': derived([touch(1, 'y', -1), touch(-1, 'y', 1)], -1, { size: 25 }),
  'the mean of two touches on one side': derived([touch(0.5, 'x', 1), touch(0.5, 'x', 1, { speed: 4 })], 0.5),
  'a height over another': derived([touch(1, 'z', -1), touch(-1, 'z', -1, { speed: 3 })], 0, { size: 30 }),
  'a distance in X corrected by Y': derived([touch(1, 'x', 1), touch(-0.4, 'y', 1)], 0.3),
  'a touch on leaving': derived([touch(1, 'x', 1, { motion: 'away' })], 0.5),
  'where the axis stopped': derived([touch(1, 'x', -1, { from: 'stopped', speed: 5 })], -0.5),
  'a place that was moved to': derived([touch(1, 'y', 0, { direction: [1, 0, 0] })]),
  'after the spindle was turned': derived([touch(1, 'x', 1), touch(1, 'y', 1)], 1, {
    spindlePhaseKnown: false,
  }),
  'one side with the spindle reversed': derived(
    [touch(0.5, 'x', 1, { turn: 0 }), touch(0.5, 'x', 1, { turn: 180 })],
    0.5,
  ),
  'one side at two angles that nobody knows': derived(
    [touch(0.5, 'x', 1, { turnedFrom: 'a' }), touch(0.5, 'x', 1, { turnedFrom: 'b', turn: 30 })],
    0.5,
  ),
  'a bore with a turn between its sides': derived([touch(1, 'x', 1), touch(-1, 'x', -1, { turn: 120 })], 1),
  'a bore whose spindle ran between its sides': derived(
    [touch(1, 'x', 1), touch(-1, 'x', -1, { turnedFrom: 'ran' })],
    1,
  ),
};

describe.each<[string, Probe]>([
  ['lobes of unknown phase', blind],
  ['known lobes', lobed],
  ['a prediction', predicted],
])('drawing agrees with the linear formula: %s', (_, probe) => {
  test.each(Object.entries(values))('%s', (__, value) => {
    const budget = derivedError(probe, value);
    const { mean, standardUncertainty, symmetricInterval } = drawn(probe, value);
    expect(Math.abs(mean - (budget.bias ?? NaN))).toBeLessThan(
      (4.5 * budget.standardUncertainty) / Math.sqrt(trials),
    );
    // 30,000 draws know a standard uncertainty to 0.4 %.
    expect(Math.abs(standardUncertainty / budget.standardUncertainty - 1)).toBeLessThan(0.019);
    // Rectangles and arcsines have shorter tails than the normal that k = 1.96 takes them for.
    const half = (symmetricInterval[1] - symmetricInterval[0]) / 2;
    expect(half).toBeLessThan(1.03 * budget.expandedUncertainty);
    expect(half).toBeGreaterThan(0.7 * budget.expandedUncertainty);
  });
});

describe('where every part is normal the interval is U as well', () => {
  const normal = aProbe({ machine: { latchPeriod: 0, resolution: 0 } });
  test.each(['a surface in X+', 'a bore centre in Y', 'a bore diameter', 'a boss diameter'])('%s', (name) => {
    const value = values[name] as DerivedValue;
    const budget = derivedError(normal, value);
    const { symmetricInterval, shortestInterval } = drawn(normal, value);
    for (const [low, high] of [symmetricInterval, shortestInterval])
      expect(Math.abs((high - low) / 2 / budget.expandedUncertainty - 1)).toBeLessThan(0.03);
  });

  test('five degrees of freedom widen it as Student says', () => {
    const few = aProbe({
      repeatability: { standardDeviation: 0.002, degreesOfFreedom: 5, source: 'probe.repeatability' },
      calibration: { expandedUncertainty: 0 },
      machine: { latchPeriod: 0, resolution: 0, positioningUncertainty: 0 },
    });
    const value = derived([touch(1, 'x', 1)], 0.5);
    const { symmetricInterval } = drawn(few, value);
    const half = (symmetricInterval[1] - symmetricInterval[0]) / 2;
    expect(half / (studentQuantile(0.975, 5) * 0.002)).toBeCloseTo(1, 1);
    expect(derivedError(few, value).expandedUncertainty).toBeCloseTo(studentQuantile(0.975, 5) * 0.002, 9);
  });
});

test('an arcsine alone has an interval far from a normal: half of what k = 1.96 says, and a half more', () => {
  const none = { latchPeriod: 0, resolution: 0, positioningUncertainty: 0 };
  const probe = aProbe({
    runout: 0.01,
    repeatability: { standardDeviation: 0, degreesOfFreedom: null, source: 'probe.repeatability' },
    calibration: { expandedUncertainty: 0 },
    machine: none,
  });
  const value = derived([touch(1, 'x', 1)], 0.5);
  const { standardUncertainty, symmetricInterval } = drawn(probe, value);
  // JCGM 101:2008 6.4.6: sine of a uniform phase; its quantiles are a·sin(π(p − ½)).
  expect(standardUncertainty / (0.01 / Math.SQRT2)).toBeCloseTo(1, 2);
  expect(symmetricInterval[1] / (0.01 * Math.sin(Math.PI * 0.475))).toBeCloseTo(1, 2);
  expect(derivedError(probe, value).expandedUncertainty).toBeGreaterThan(0.0138);
});

test('a seat that may stand anyhow: the spread is the linear one, the mean has no lobes', () => {
  const value = derived([touch(1, 'x', 1)], 0.5);
  const budget = derivedError(seatUnknown, value);
  const { mean, standardUncertainty } = drawn(seatUnknown, value);
  expect(Math.abs(standardUncertainty / budget.standardUncertainty - 1)).toBeLessThan(0.019);
  const level = derivedError(seatUnknown, { ...value, spindlePhaseKnown: false }).bias ?? NaN;
  expect(Math.abs(mean - level)).toBeLessThan((4.5 * standardUncertainty) / Math.sqrt(trials));
});

test('a seed gives the same numbers again, another one others', () => {
  const value = values['a bore diameter'] as DerivedValue;
  const once = (seed: number) => drawnError(lobed, value, { seed, trials: 1000 });
  expect(once(1)).toEqual(once(1));
  expect(once(1)).not.toEqual(once(2));
});

describe('what cannot be drawn is named', () => {
  test.each<[string, DerivedValue, string]>([
    [
      'a slanted touch',
      derived([touch(1, 'x', 0.6, { sign: null, direction: [0.6, 0.8, 0] })]),
      'oblique-touch',
    ],
    ['a direction that is not known', derived([{ ...touch(1, 'x', 1), sign: null }]), 'direction'],
    ['a rotary axis', derived([{ ...touch(1, 'x', 1), axis: 'a' }]), 'rotary-axis'],
    ['a feed that is not known', derived([touch(1, 'x', 1, { speed: null })]), 'feed'],
    ['a diameter that is not known', derived([touch(1, 'x', 1)], 0.5, { diameter: null }), 'diameter'],
  ])('%s', (_, value, name) => {
    expect(drawnError(lobed, value, { seed: 1, trials: 10 })).toEqual({ notDrawn: name });
    expect(derivedError(lobed, value).notIncluded).toContain(name);
  });
});
