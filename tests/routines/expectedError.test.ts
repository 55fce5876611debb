import { describe, expect, test } from 'vitest';
import { analyse } from '../../server/analysis/analysis.ts';
import { datumError } from '../../server/analysis/error.ts';
import type { Profile } from '../../server/profile/profile.ts';
import type { ExpectedResult } from '../../server/routines/expectedError.ts';
import { expectedErrors, routineNamed, routines, writeRoutine } from '../../server/routines/registry.ts';
import { workOffsetInput } from '../../server/routines/sharedInputs.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { Source } from '../../server/syntax/source.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';
import { everyCase } from './everyCase.ts';
import { profiles } from './profiles.ts';
import { inputsOverProfiles, seed } from './randomInputs.ts';

function expectedOf(
  name: string,
  inputs: Record<string, string | number>,
  profile: Profile,
): Map<string, ExpectedResult> {
  const routine = routineNamed(name);
  if (routine === null) throw new Error(name);
  const expected = expectedErrors(routine, inputs, profile, 'mm');
  if ('problems' in expected) throw new Error(JSON.stringify(expected.problems));
  return new Map(expected.results.map((result) => [result.name, result]));
}

describe(`compensation is right exactly when c_D = half the sum of c_i n_i (error-model.md section 4; seed ${seed})`, () => {
  test.each(routines.map((routine) => ({ routine, name: routine.name })))('$name', ({ routine }) => {
    for (const { profile, inputs, said } of inputsOverProfiles(routine, 'mm', 20)) {
      const expected = expectedErrors(routine, inputs, profile, 'mm');
      if ('problems' in expected) throw new Error(said);
      expect(expected.results.length).toBeGreaterThan(0);
      for (const { kind, value } of expected.results) {
        if (kind === 'probe') continue;
        const lateral = value.terms.filter(({ axis }) => axis !== 'z');
        const balance = lateral.reduce((sum, { coefficient, sign }) => sum + coefficient * (sign ?? 0), 0);
        // Directions are rounded to seven decimals.
        expect(value.diameterCoefficient, said).toBeCloseTo(balance / 2, 6);
        // A part that is moved by t moves a touch by its line's direction times t: places go along, sizes stay.
        const moved = [0, 1, 2].map((axis) =>
          value.terms.reduce(
            (sum, { coefficient, sign, direction }) =>
              sum + coefficient * (sign ?? 0) * (direction?.[axis] ?? 0),
            0,
          ),
        );
        if (kind !== 'angle')
          expect(Math.hypot(...moved), said).toBeCloseTo(kind === 'coordinate' ? 1 : 0, 5);
      }
    }
  });
});

describe('the bias is that of the table of error-model.md section 4', () => {
  // r = r0 + a3·cos 3θ + b3·sin 3θ, the invented calibration of this test's profile.
  const [a3, b3] = [0.0021, -0.0008];
  const biasOf = (name: string, inputs: Record<string, string | number>, result: string) =>
    expectedOf(name, inputs, profiles.calibrated).get(result)?.error?.bias ?? Number.NaN;

  test('a surface met in X+: D/2 - r(0)', () => {
    expect(biasOf('surface', {}, 'surface')).toBeCloseTo(-a3, 9);
  });

  test('a surface met in Y-: the other way round, r at 270 degrees', () => {
    expect(biasOf('surface', { direction: 'Y-' }, 'surface')).toBeCloseTo(b3, 9);
  });

  test('a surface met in Z- has neither radius nor lobes', () => {
    const result = expectedOf('surface', { direction: 'Z-' }, profiles.calibrated).get('surface');
    expect(result?.value.diameterCoefficient).toBe(0);
    expect(result?.error?.bias).toBeCloseTo(0, 12);
  });

  test('the centre of a bore in X: -a3, and its diameter is free of it', () => {
    expect(biasOf('bore', {}, 'centreX')).toBeCloseTo(-a3, 9);
    expect(biasOf('bore', {}, 'diameterX')).toBeCloseTo(0, 9);
    expect(biasOf('boss', {}, 'centreX')).toBeCloseTo(-a3, 9);
    expect(biasOf('boss', {}, 'diameterY')).toBeCloseTo(0, 9);
  });

  test('the uncertainty of a single touch is larger than that of the middle of two', () => {
    const u = (name: string, result: string) =>
      expectedOf(name, {}, profiles.calibrated).get(result)?.error?.expandedUncertainty ?? Number.NaN;
    expect(u('surface', 'surface')).toBeGreaterThan(u('bore', 'centreX'));
  });
});

describe('a reversal frees the centre of odd lobes and of run-out', () => {
  test('as the bias and as an unknown', () => {
    const error = (name: string, result: string, profile: Profile) =>
      expectedOf(name, {}, profile).get(result)?.error;
    expect(error('reversal-centre', 'centreX', profiles.calibrated)?.bias).toBeCloseTo(0, 9);
    expect(error('reversal-centre', 'centreY', profiles.calibrated)?.bias).toBeCloseTo(0, 9);
    const lobing = (name: string) =>
      error(name, 'centreX', profiles.builtIn)?.components.find((each) => each.name === 'lobing-3')
        ?.standardUncertainty ?? 0;
    expect(lobing('bore')).toBeGreaterThan(1e-4);
    expect(lobing('reversal-centre')).toBeLessThan(1e-9);
  });
});

describe('what is said before it is written is what the analysis of the text says afterwards', () => {
  const affine = everyCase(routines).filter(
    ({ form, routine: { inputs, results } }) =>
      form === 'inline' && inputs.includes(workOffsetInput) && !results.some(({ kind }) => kind === 'angle'),
  );
  test.each(affine)('$name, $dialect, $units', ({ routine, dialect, units }) => {
    for (const profile of [profiles.calibrated, profiles.builtIn]) {
      const inputs = { workOffset: 'G55' };
      const written = writeRoutine(routine, inputs, { profile, dialect, units, form: 'inline' });
      const expected = expectedErrors(routine, inputs, profile, units);
      if (!('text' in written) || 'problems' in expected) throw new Error(routine.name);
      const source = Source.from(SourceText.from(written.text), dialects[dialect]);
      const { datums } = analyse(source, profile);
      const coordinates = expected.results.filter(({ kind }) => kind === 'coordinate');
      expect(datums.map(({ target }) => target)).toEqual(
        coordinates.map((_, i) => `G55.${(routine.name === 'rotary-axis' ? 'yz' : 'xyz')[i]}`),
      );
      for (const [index, datum] of datums.entries()) {
        const found = datumError(datum, profile);
        const said = coordinates[index];
        const coefficients = found?.terms.map(({ coefficient }) => Number(coefficient.toFixed(9)));
        expect(coefficients).toEqual(said?.value.terms.map(({ coefficient }) => coefficient));
        expect(found?.diameterCoefficient).toBeCloseTo(said?.value.diameterCoefficient ?? Number.NaN, 9);
        // The text does not say how far the operator turns the spindle.
        const isTurnedByHand = routine.name === 'reversal-centre' && !profile.machine.spindleOrientation;
        if (found?.notIncluded.includes('direction') || isTurnedByHand) continue;
        expect(found?.bias).toBeCloseTo(said?.error?.bias ?? Number.NaN, 4);
        expect(found?.expandedUncertainty).toBeCloseTo(said?.error?.expandedUncertainty ?? Number.NaN, 5);
      }
    }
  });
});

describe('angles, and places that are no sums of touches, have slopes in the text that say the same', () => {
  const turning = everyCase(routines).filter(
    ({ form, routine: { results } }) => form === 'inline' && results.some(({ kind }) => kind === 'angle'),
  );
  test.each(turning)('$name, $dialect, $units', ({ routine, dialect, units }) => {
    const profile = profiles.calibrated;
    const written = writeRoutine(routine, {}, { profile, dialect, units, form: 'inline' });
    const expected = expectedErrors(routine, {}, profile, units);
    if (!('text' in written) || 'problems' in expected) throw new Error(routine.name);
    const analysis = analyse(Source.from(SourceText.from(written.text), dialects[dialect]), profile);
    const of = (kind: string) => expected.results.filter((result) => result.kind === kind);
    const angles = analysis.storedResults.filter(({ unit }) => unit === 'degrees');
    expect(angles.length).toBe(of('angle').length);
    for (const [index, angle] of angles.entries()) {
      const [found, said] = [datumError(angle, profile), of('angle')[index]?.error];
      expect(found?.bias).toBeCloseTo(said?.bias ?? Number.NaN, 6);
      expect((found?.expandedUncertainty ?? 0) / (said?.expandedUncertainty ?? 0)).toBeCloseTo(1, 3);
    }
    for (const [index, datum] of analysis.datums.entries()) {
      const [found, said] = [datumError(datum, profile), of('coordinate')[index]?.error];
      expect(found?.bias).toBeCloseTo(said?.bias ?? Number.NaN, 4);
      // A corner's arms are as long as the touches go in; the text shows how far they may go.
      const ratio = (found?.expandedUncertainty ?? 0) / (said?.expandedUncertainty ?? 0);
      expect(Math.abs(ratio - 1)).toBeLessThan(0.05);
    }
  });
});

describe('touches all around are sums that the analysis of the text follows too', () => {
  const around = everyCase(routines).filter(
    ({ form, name }) => form === 'inline' && (name === 'bore' || name === 'boss'),
  );
  test.each(around)('$name, $dialect, $units', ({ routine, dialect, units }) => {
    const profile = profiles.calibrated;
    for (const inputs of [
      { touches: 3, workOffset: 'G55' },
      { touches: 5, firstAngle: 17, workOffset: 'G55' },
      { touches: 6, passes: 'one', workOffset: 'G55' },
      { touches: 8, firstAngle: -40, workOffset: 'G55' },
    ]) {
      const written = writeRoutine(routine, inputs, { profile, dialect, units, form: 'inline' });
      const expected = expectedErrors(routine, inputs, profile, units);
      if (!('text' in written) || 'problems' in expected) throw new Error(routine.name);
      const { datums } = analyse(Source.from(SourceText.from(written.text), dialects[dialect]), profile);
      for (const [index, datum] of datums.entries()) {
        const error = datumError(datum, profile);
        const said = expected.results[index]?.error;
        expect(datum.target).toBe(`G55.${'xy'[index]}`);
        const along = datum.terms?.filter(({ axis }) => axis === 'xy'[index]) ?? [];
        expect(along.reduce((sum, { coefficient }) => sum + coefficient, 0)).toBeCloseTo(1, 6);
        expect(error?.diameterCoefficient).toBeCloseTo(0, 6);
        expect(error?.expandedUncertainty).toBeCloseTo(said?.expandedUncertainty ?? Number.NaN, 5);
      }
    }
  });
});
