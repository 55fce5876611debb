import { describe, expect, test } from 'vitest';
import { type DerivedValue, derivedError } from '../../server/probe/derivedError.ts';
import type { Probe } from '../../server/probe/probe.ts';
import { aProbe } from './aProbe.ts';
import { derived, touch } from './aTouch.ts';

/**
 * JCGM 101:2008: touches are drawn from `error-model.md` section 1 and the derived value is worked out from them, as the program
 * does. Nothing of the linear formula is used; only the inputs are the same.
 */

const trials = 40_000;

interface Lobe {
  readonly order: number;
  readonly amplitude: number;
}

/** What nature has in common for all touches of one run. */
interface Run {
  readonly radius: number;
  readonly lobes: readonly (Lobe & { readonly phase: number })[];
}

describe('drawn touches agree with the linear uncertainty', () => {
  const blind = aProbe({
    runout: 0.003,
    repeatability: { standardDeviation: 0.004, degreesOfFreedom: null, source: 'probe.repeatability' },
    calibration: { harmonics: null, expandedUncertainty: 0.01 },
    machine: { latchPeriod: 0.004, resolution: 0.005, temperatureSpread: 6 },
  });
  // Shares of the model, `error-model.md` section 2, of a mean pre-travel of 0.01.
  const lobes = [
    { order: 1, amplitude: 0.003 },
    { order: 3, amplitude: 0.0027514 },
    { order: 6, amplitude: 0.0010431 },
    { order: 9, amplitude: 0.0005366 },
  ];
  const values: readonly (readonly [string, DerivedValue])[] = [
    ['a surface in X+', derived([touch(1, 'x', 1)], 0.5)],
    ['a surface in Y−, nominal diameter', derived([touch(1, 'y', -1)], -0.5, { diameter: 4 })],
    ['a surface without compensation', derived([touch(1, 'x', 1)])],
    ['a bore centre in Y', derived([touch(0.5, 'y', 1), touch(0.5, 'y', -1)])],
    ['a bore diameter', derived([touch(1, 'x', 1), touch(-1, 'x', -1)], 1, { size: 60 })],
    ['a boss diameter', derived([touch(1, 'y', -1), touch(-1, 'y', 1)], -1, { size: 25 })],
    [
      'the mean of two touches on one side',
      derived([touch(0.5, 'x', 1), touch(0.5, 'x', 1, { speed: 4 })], 0.5),
    ],
    [
      'a height over another',
      derived([touch(1, 'z', -1), touch(-1, 'z', -1, { speed: 3 })], 0, { size: 30 }),
    ],
    ['a distance in X corrected by Y', derived([touch(1, 'x', 1), touch(-0.4, 'y', 1)], 0.3)],
  ];

  test.each(values)('%s', (_, value) => {
    const budget = derivedError(blind, value);
    const { mean, deviation } = simulate(blind, value, lobes);
    expect(Math.abs(mean - (budget.bias ?? NaN))).toBeLessThan((4.5 * deviation) / Math.sqrt(trials));
    expect(Math.abs(deviation / budget.standardUncertainty - 1)).toBeLessThan(0.018);
  });
});

function simulate(
  probe: Probe,
  value: DerivedValue,
  lobes: readonly Lobe[],
): { mean: number; deviation: number } {
  const random = generator(20_240_611);
  const surfaces = value.terms.map((_, index) => 10 + 7 * index);
  const truth = value.terms.reduce(
    (sum, term, index) => sum + term.coefficient * (surfaces[index] ?? NaN),
    0,
  );
  let sum = 0;
  let squares = 0;
  for (let trial = 0; trial < trials; trial += 1) {
    const run = drawRun(probe, lobes, random);
    let q = value.diameterCoefficient * (value.diameter ?? NaN);
    value.terms.forEach((term, index) => {
      q += term.coefficient * latched(probe, term, surfaces[index] ?? NaN, run, random);
    });
    const error = q - truth + grown(probe, value, random);
    sum += error;
    squares += error ** 2;
  }
  const mean = sum / trials;
  return { mean, deviation: Math.sqrt(squares / trials - mean ** 2) };
}

function drawRun(probe: Probe, lobes: readonly Lobe[], random: () => number): Run {
  const { effectiveDiameter = NaN, expandedUncertainty, coverageFactor = NaN } = probe.calibration ?? {};
  const uncertain = ((expandedUncertainty ?? NaN) / coverageFactor) * normal(random);
  return {
    radius: (effectiveDiameter + uncertain) / 2,
    lobes: lobes.map((lobe) => ({ ...lobe, phase: 2 * Math.PI * random() })),
  };
}

/** The latched coordinate on the axis read: m = S − n·r, with what is drawn anew for each touch. */
function latched(
  probe: Probe,
  term: DerivedValue['terms'][number],
  surface: number,
  run: Run,
  random: () => number,
): number {
  const { machine, repeatability, calibration } = probe;
  const speed = term.speed ?? NaN;
  const sign = term.sign ?? NaN;
  const late = (speed - (calibration?.speed ?? NaN)) * machine.tripLatency;
  const turn = (term.axis === 'y' ? 90 : 0) + (sign < 0 ? 180 : 0);
  const theta = (turn * Math.PI) / 180;
  const lobed = run.lobes.reduce(
    (sum, lobe) => sum + lobe.amplitude * Math.cos(lobe.order * theta + lobe.phase),
    0,
  );
  const radius = term.axis === 'z' ? -late : run.radius + lobed - late;
  const drawn =
    repeatability.standardDeviation * normal(random) +
    speed * machine.latchPeriod * (random() - 0.5) +
    machine.resolution * (random() - 0.5) +
    (machine.positioningUncertainty / 2) * normal(random);
  return surface - sign * radius + drawn;
}

function grown(probe: Probe, value: DerivedValue, random: () => number): number {
  if (value.size === null) return 0;
  return 11.5e-6 * (probe.machine.temperatureSpread ?? NaN) * (2 * random() - 1) * value.size;
}

function normal(random: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

/** Seeded, so that a failure comes again: mulberry32, in the public domain. */
function generator(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}
