import { expect, test } from 'vitest';
import { analyse } from '../../server/analysis/analysis.ts';
import { datumError } from '../../server/analysis/error.ts';
import { monteCarlo } from '../../server/rehearsal/monteCarlo.ts';
import { aProfile, aSetup, aSource } from './rehearsed.ts';

/** Positioning and the calibration's own uncertainty are not drawn in a rehearsal: here they are nothing. */
const profile = {
  probe: {
    tipDiameter: 4,
    calibration: {
      effectiveDiameter: 3.98,
      expandedUncertainty: 0,
      feed: 60,
      harmonics: [{ order: 3, cosine: 0.003, sine: 0.001 }],
    },
    repeatability: 0.002,
  },
  machine: { tripLatency: 0.001, latchPeriod: 0.004, resolution: 0.002, positioningUncertainty: 0 },
};
const program = `G21 G90 G94 G17 G40
G0 X0.2
G38.2 X20 F90
#1 = #5061
G0 X0
G38.2 X-20 F90
#2 = #5061
G0 X0
G10 L2 P1 X[[#1 + #2] / 2]
M2`;
const setup = {
  start: [0, 0, -10],
  part: [
    { add: 'block', min: [-50, -50, -30], max: [50, 50, 0] },
    { cut: 'bore', center: [0, 0], diameter: 25, top: 0, depth: 30 },
  ],
  expect: { 'G54.x': { value: 0, tolerance: 0.01 } },
};

test('the errors of 10,000 runs have the bias and the U that error predicts (JCGM 101:2008)', () => {
  const source = aSource(program);
  const resolved = aProfile(profile);
  const { spreads } = monteCarlo(source, aSetup(setup), resolved, { runs: 10_000, seed: 7 });
  const [spread] = spreads;
  const [datum] = analyse(source, resolved).datums;
  const predicted = datum && datumError(datum, resolved);
  if (!spread || !predicted) throw new Error('nothing to compare');
  const { standardUncertainty: u, expandedUncertainty, bias } = predicted;
  // Five standard errors of a mean and of a standard deviation of so many.
  expect(Math.abs(spread.mean - (bias ?? Number.NaN))).toBeLessThan((5 * u) / 100);
  expect(Math.abs((spread.standardDeviation ?? 0) / u - 1)).toBeLessThan(5 / Math.sqrt(20_000));
  const within = spread.errors.filter((e) => Math.abs(e - (bias ?? 0)) <= expandedUncertainty).length;
  expect(Math.abs(within / 10_000 - 0.95)).toBeLessThan(0.011);
});

test('one seed, one answer; another seed, another', () => {
  const run = (seed: number) =>
    monteCarlo(aSource(program), aSetup(setup), aProfile(profile), { runs: 20, seed }).spreads[0]?.mean;
  expect(run(3)).toBe(run(3));
  expect(run(3)).not.toBe(run(4));
});
