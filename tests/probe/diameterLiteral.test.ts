import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { identifyDiameter, nominalIsFault } from '../../server/probe/diameterLiteral.ts';
import { aProbe } from './aProbe.ts';

const probe = aProbe();
const identify = (mm: number) => identifyDiameter(probe, mm, mm * 25.4);

describe('which literal is the diameter', () => {
  test('1: the effective one within U, half of it for the radius', () => {
    expect(identify(3.98)).toEqual({ kind: 'effective', coefficient: 1 });
    expect(identify(3.982)).toEqual({ kind: 'effective', coefficient: 1 });
    expect(identify(1.99)).toEqual({ kind: 'effective', coefficient: 0.5 });
    expect(identify(1.991)).toEqual({ kind: 'effective', coefficient: 0.5 });
    expect(identify(1.9915)).toEqual({ kind: 'outdated', coefficient: 0.5 });
    expect(identify(3.9825)).toEqual({ kind: 'outdated', coefficient: 1 });
  });

  test('1: within the resolution where that is coarser than U', () => {
    const coarse = aProbe({ machine: { resolution: 0.01 } });
    expect(identifyDiameter(coarse, 3.99, 0)).toEqual({ kind: 'effective', coefficient: 1 });
  });

  test('1: within what the last decimal in inches is rounded by, whatever U is', () => {
    const exact = aProbe({ machine: { resolution: 0 }, calibration: { expandedUncertainty: 0 } });
    const { effectiveDiameter = Number.NaN } = exact.calibration ?? {};
    for (const share of [1, 0.5] as const)
      for (const by of [-1, 1]) {
        const rounded = share * effectiveDiameter + by * 0.0000049 * 25.4;
        expect(identifyDiameter(exact, rounded, 0)).toEqual({ kind: 'effective', coefficient: share });
        const other = share * effectiveDiameter + by * 0.000006 * 25.4;
        expect(identifyDiameter(exact, other, 0)).toEqual({ kind: 'outdated', coefficient: share });
      }
  });

  test('2: the actual diameter or radius within a micrometre', () => {
    expect(identify(4)).toEqual({ kind: 'nominal', coefficient: 1 });
    expect(identify(2.001)).toEqual({ kind: 'nominal', coefficient: 0.5 });
    expect(identify(2.0015)).toEqual({ kind: 'outdated', coefficient: 0.5 });
  });

  test('3: the same in the other unit', () => {
    expect(identify(3.98 / 25.4)).toEqual({ kind: 'wrong-unit', coefficient: 1 });
    expect(identify(2 / 25.4)).toEqual({ kind: 'wrong-unit', coefficient: 0.5 });
  });

  test('4: near the effective one: outdated; 5: anything else is a constant', () => {
    expect(identify(3.98 * 0.951)).toEqual({ kind: 'outdated', coefficient: 1 });
    expect(identify(1.99 * 1.049)).toEqual({ kind: 'outdated', coefficient: 0.5 });
    expect(identify(3.98 * 0.949)).toEqual({ kind: 'constant' });
    expect(identify(3)).toEqual({ kind: 'constant' });
    expect(identify(0)).toEqual({ kind: 'constant' });
  });

  test('the sign is left to the caller', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 10, noNaN: true }), (mm) => {
        expect(identify(-mm)).toEqual(identify(mm));
      }),
    );
  });

  test('nothing is outdated where nobody calibrated', () => {
    const predicted = aProbe({ calibration: null });
    const kinds = (mm: number) => identifyDiameter(predicted, mm, mm * 25.4).kind;
    expect(kinds(4)).toBe('nominal');
    expect(kinds(1.98)).toBe('effective');
    expect(kinds(4 / 25.4)).toBe('wrong-unit');
    fc.assert(fc.property(fc.double({ min: 0, max: 10, noNaN: true }), (mm) => kinds(mm) !== 'outdated'));
  });
});

test('the nominal diameter is a fault only where it differs from the effective one by more than U', () => {
  expect(nominalIsFault(probe)).toBe(true);
  expect(nominalIsFault(aProbe({ calibration: { expandedUncertainty: 0.02 } }))).toBe(false);
  expect(nominalIsFault(aProbe({ calibration: { expandedUncertainty: null } }))).toBe(true);
  expect(nominalIsFault(aProbe({ calibration: { effectiveDiameter: 4 } }))).toBe(false);
  expect(nominalIsFault(aProbe({ calibration: null }))).toBe(false);
});
