import { describe, expect, test } from 'vitest';
import { type DerivedValue, derivedError } from '../../server/probe/derivedError.ts';
import { drawnError } from '../../server/probe/monteCarloDerived.ts';
import { aProbe } from './aProbe.ts';
import { derived, touch } from './aTouch.ts';

const probe = aProbe({
  runout: 0.003,
  calibration: { harmonics: null, expandedUncertainty: 0.004 },
  machine: { temperatureSpread: 4 },
});

describe('drawn until it is stable, mean and uncertainty agree within twice the numerical tolerance', () => {
  test.each<[string, DerivedValue]>([
    ['edge', derived([touch(1, 'x', 1)], 0.5)],
    ['bore centre', derived([touch(0.5, 'x', 1), touch(0.5, 'x', -1)])],
    ['bore diameter', derived([touch(1, 'x', 1), touch(-1, 'x', -1)], 1, { size: 60 })],
    ['boss diameter', derived([touch(1, 'y', -1), touch(-1, 'y', 1)], -1, { size: 25 })],
  ])('%s', (_, value) => {
    const budget = derivedError(probe, value);
    const found = drawnError(probe, value, { seed: 99, trials: 'adaptive' });
    if ('notDrawn' in found) throw new Error(found.notDrawn);
    expect(found.stable).toBe(true);
    expect(Math.abs(found.mean - (budget.bias ?? NaN))).toBeLessThan(2 * found.numericalTolerance);
    expect(Math.abs(found.standardUncertainty - budget.standardUncertainty)).toBeLessThan(
      2 * found.numericalTolerance,
    );
  });
});

test('a million trials of a bore take under 2 s of the processor', () => {
  const bore = derived([touch(1, 'x', 1), touch(-1, 'x', -1)], 1, { size: 60 });
  const before = process.cpuUsage();
  drawnError(probe, bore, { seed: 1, trials: 1_000_000 });
  const { user, system } = process.cpuUsage(before);
  expect((user + system) / 1e6).toBeLessThan(2);
});
