import { describe, expect, test } from 'vitest';
import { derivedError } from '../../server/probe/derivedError.ts';
import { whatWouldDecide } from '../../server/probe/improvement.ts';
import { type Change, changed, expectedErrorOf } from '../../server/probe/improvementChange.ts';
import { aProbe } from './aProbe.ts';
import { derived, touch } from './aTouch.ts';

const means = { canOrient: true, referenceUncertainty: 0.001 };
const still = { latchPeriod: 0, resolution: 0, positioningUncertainty: 0 };
const centre = derived([touch(0.5, 'x', 1), touch(0.5, 'x', -1)]);
const edge = derived([touch(1, 'x', 1)], 0.5);

const outlook = (
  ...[probe, value, tolerance, ratio = 10, given = means]: [
    Parameters<typeof whatWouldDecide>[0],
    Parameters<typeof whatWouldDecide>[1],
    number,
    number?,
    typeof means?,
  ]
) => {
  const found = whatWouldDecide(probe, value, tolerance, ratio, given);
  if (found === null) throw new Error('not known');
  return found;
};

function option<Kind extends Change['kind']>(found: ReturnType<typeof outlook>, kind: Kind) {
  return found.options.find(({ changes }) => changes[0]?.kind === kind);
}

describe('each change, where it is the only thing that counts', () => {
  test('four touches halve what repeatability alone makes', () => {
    const probe = aProbe({ calibration: { expandedUncertainty: 0 }, machine: still });
    const found = outlook(probe, edge, 10 * 0.00098);
    expect(option(found, 'touches')).toMatchObject({ changes: [{ count: 4 }], decides: true });
    expect(option(found, 'touches')?.expectedError).toBeCloseTo(found.expectedError / 2, 12);
    expect(found.together?.changes).toEqual([{ kind: 'touches', count: 4 }]);
  });

  test('touches in one place do nothing for positioning', () => {
    const probe = aProbe({
      repeatability: { standardDeviation: 0, degreesOfFreedom: null, source: 'probe.repeatability' },
      calibration: { expandedUncertainty: 0 },
      machine: { ...still, positioningUncertainty: 0.01 },
    });
    const found = outlook(probe, edge, 0.01);
    expect(option(found, 'touches')).toBeUndefined();
    expect(found.floor).toMatchObject({ blocks: true });
    expect(found.floor.expectedError).toBeCloseTo(1.959964 * 0.005, 8);
    expect(found.floor.positioningNeeded).toBeCloseTo(0.001 / 0.979982, 8);
    expect(found.together?.changes.map(({ kind }) => kind)).toEqual(['machine']);
  });

  test('reversal frees a bore centre of run-out and of order 3', () => {
    const probe = aProbe({
      runout: 0.02,
      calibration: { harmonics: [{ order: 3, cosine: 0.004, sine: 0 }] },
    });
    const found = option(outlook(probe, centre, 0.1), 'reversal');
    const clean = derivedError(aProbe({ calibration: { harmonics: [] } }), centre);
    expect(found?.expectedError).toBeLessThanOrEqual(clean.expectedError ?? NaN);
    expect(
      option(outlook(probe, centre, 0.1, 10, { ...means, canOrient: false }), 'reversal'),
    ).toBeUndefined();
  });

  test('the bias that a calibration knows can be taken off', () => {
    const probe = aProbe({ calibration: { harmonics: [{ order: 3, cosine: 0.004, sine: 0 }] } });
    const found = option(outlook(probe, centre, 0.1), 'correction');
    expect(found?.changes[0]).toMatchObject({ kind: 'correction' });
    expect(found?.expectedError).toBeCloseTo(derivedError(probe, centre).expandedUncertainty, 12);
  });

  test('a bias from missing compensation is mended, not taken off', () => {
    const found = outlook(aProbe(), derived([touch(1, 'x', 1)]), 0.1);
    expect(option(found, 'correction')).toBeUndefined();
    expect(option(found, 'compensation')).toMatchObject({
      changes: [{ diameterCoefficient: 0.5, diameter: 3.98 }],
      expectedError: derivedError(aProbe(), edge).expectedError,
    });
  });

  test('where the axis stopped gives way to the latched position', () => {
    const stopped = derived([touch(1, 'x', 1, { from: 'stopped' })], 0.5);
    expect(option(outlook(aProbe(), stopped, 0.1), 'latched')?.expectedError).toBe(
      derivedError(aProbe(), edge).expectedError,
    );
    const returns = aProbe({ machine: { afterTrip: 'returns-to-trip' } });
    expect(option(outlook(returns, stopped, 0.1), 'latched')).toBeUndefined();
  });

  test('the nominal diameter in the program gives way to the effective one', () => {
    const found = option(outlook(aProbe(), { ...edge, diameter: 4 }, 0.1), 'diameter');
    expect(found?.changes).toEqual([{ kind: 'diameter', diameter: 3.98 }]);
    expect(found?.expectedError).toBeCloseTo(derivedError(aProbe(), edge).expectedError ?? NaN, 12);
  });

  test('touches at another feed than the calibration go back to it', () => {
    const fast = derived([touch(1, 'x', 1, { speed: 10 })], 0.5);
    const found = option(outlook(aProbe(), fast, 0.1), 'feed');
    expect(found?.changes).toEqual([{ kind: 'feed', speed: 1 }]);
    expect(found?.expectedError).toBeCloseTo(derivedError(aProbe(), edge).expectedError ?? NaN, 12);
  });

  test('a shorter stylus of a predicted probe: an eighth by its length, twice by its force', () => {
    const probe = aProbe({ calibration: null, machine: still });
    const found = option(outlook(probe, edge, 0.1), 'stylus');
    expect(found?.changes).toEqual([
      { kind: 'stylus', stylus: { length: 25, stemDiameter: 2, material: 'tungsten-carbide' } },
    ]);
    const radius = (size: number) =>
      derivedError({ ...probe, stylus: { ...probe.stylus, length: size } }, edge).components.find(
        ({ name }) => name === 'effective-radius',
      )?.standardUncertainty ?? NaN;
    expect(radius(25) / radius(50)).toBeCloseTo(1 / 4, 12);
  });

  test('a soft stem is replaced by the stiffest material', () => {
    const stylus = { length: 50, stemDiameter: 2, material: 'steel' } as const;
    const found = option(outlook(aProbe({ calibration: null, stylus }), edge, 0.1), 'stylus');
    expect(found?.changes).toMatchObject([{ stylus: { material: 'tungsten-carbide' } }]);
  });

  test('a calibration of twelve touches takes the prediction out: 2s/√12 of the diameter, and the ring', () => {
    const probe = aProbe({ calibration: null, machine: { ...still, tripLatency: 0 } });
    const found = option(
      outlook(probe, derived([touch(1, 'x', 1), touch(1, 'x', 1)], 1), 0.1),
      'calibration',
    );
    // u of twice the radius: both 2·0.001/√12 and half of the ring's 0.001 at k = 2; order 3 and the model's 6 and 9 beside.
    const diameter = Math.hypot((2 * 0.001) / Math.sqrt(12), 0.001 / 2);
    const repeat = 0.001 * Math.SQRT2;
    const third = (2 * 2 * 0.001) / Math.sqrt(12) / Math.SQRT2;
    expect(found?.expectedError).toBeGreaterThan(1.95996 * Math.hypot(diameter, repeat, third));
    expect(found?.expectedError).toBeLessThan(1.95996 * Math.hypot(diameter, repeat, third, 0.0015));
  });
});

describe('altogether', () => {
  test('what decides already needs nothing', () => {
    const found = outlook(aProbe(), edge, 1);
    expect(found.decides).toBe(true);
  });

  test('options come cheapest first and each is better than now', () => {
    const probe = aProbe({ calibration: null, runout: 0.004 });
    const found = outlook(probe, { ...edge, diameter: 4 }, 0.01);
    const order = [
      'latched',
      'compensation',
      'diameter',
      'correction',
      'feed',
      'touches',
      'reversal',
      'calibration',
      'stylus',
      'machine',
    ];
    const kinds = found.options.map(({ changes }) => changes[0]?.kind ?? '');
    expect(kinds.map((kind) => order.indexOf(kind))).toEqual(
      [...kinds.map((kind) => order.indexOf(kind))].sort((one, other) => one - other),
    );
    for (const each of found.options) expect(each.expectedError).toBeLessThan(found.expectedError);
  });

  test('the fewest that decide together: none of them can be left out', () => {
    const probe = aProbe({ calibration: null, runout: 0.004, machine: { positioningUncertainty: 0.004 } });
    const value = { ...edge, diameter: 4 };
    const found = outlook(probe, value, 0.06);
    expect(found.decides).toBe(false);
    const changes = found.together?.changes ?? [];
    expect(changes.length).toBeGreaterThan(1);
    const after = (some: readonly Change[]) =>
      expectedErrorOf(some.reduce(changed, { probe, value, corrected: false })) ?? NaN;
    expect(after(changes)).toBeCloseTo(found.together?.expectedError ?? NaN, 12);
    expect(after(changes)).toBeLessThanOrEqual(0.006 * (1 + 1e-9));
    for (const change of changes)
      expect(after(changes.filter((each) => each !== change))).toBeGreaterThan(0.006);
  });

  test('a tolerance that the machine alone forbids has no answer without the machine', () => {
    const found = outlook(aProbe(), edge, 0.01);
    expect(found.floor.blocks).toBe(true);
    expect(found.together?.changes.map(({ kind }) => kind) ?? ['machine']).toContain('machine');
  });

  test('a value in Z is offered neither stylus nor reversal nor ring', () => {
    const height = derived([touch(1, 'z', -1)]);
    const kinds = outlook(aProbe(), height, 0.01).options.map(({ changes }) => changes[0]?.kind);
    for (const kind of ['stylus', 'reversal', 'calibration', 'diameter']) expect(kinds).not.toContain(kind);
  });

  test('an unknown error has no outlook', () => {
    expect(
      whatWouldDecide(aProbe(), derived([touch(1, 'x', 1, { speed: null })]), 0.01, 10, means),
    ).toBeNull();
  });
});
