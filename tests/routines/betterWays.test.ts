import { describe, expect, test } from 'vitest';
import { builtInProfile, readProfile } from '../../server/profile/profile.ts';
import { betterWays } from '../../server/routines/betterWays.ts';
import { expectedErrors, routineNamed, routines } from '../../server/routines/registry.ts';
import { profiles } from './profiles.ts';

function waysOf(name: string, given: Record<string, string | number>, profile = profiles.calibrated) {
  const routine = routineNamed(name);
  if (!routine) throw new Error(name);
  return betterWays(routine, given, profile, 'mm');
}

const kinds = (found: ReturnType<typeof waysOf>) =>
  found.map(({ way }) => (way.kind === 'input' ? way.title : way.change.kind));

describe.each(routines)('$name', (routine) => {
  test('every way named is better than what is, the largest gain first, and at most four', () => {
    for (const profile of Object.values(profiles)) {
      const found = betterWays(routine, {}, profile, 'mm');
      const gains = found.map(({ before, after }) => after / before);
      expect(gains).toEqual([...gains].sort((a, b) => a - b));
      expect(gains.length).toBeLessThanOrEqual(4);
      for (const each of gains) expect(each).toBeLessThan(0.99);
    }
  });
});

test('more touches around make a centre better, by as much as the routine then has', () => {
  const found = waysOf('bore', { touches: 6 }).filter(({ way }) => way.kind === 'input');
  expect(found.map(({ way }) => way.kind === 'input' && [way.title, way.value])).toEqual([
    ['Touches around', '8'],
    ['Touches around', '7'],
  ]);
  const bore = routineNamed('bore');
  const then = bore && expectedErrors(bore, { touches: 8 }, profiles.calibrated, 'mm');
  if (!then || 'problems' in then) throw new Error('bore');
  const result = then.results.find(({ title }) => title === found[0]?.title);
  expect(result?.error?.expandedUncertainty).toBe(found[0]?.after);
});

test('an angle is better further apart: twice as far, half the error', () => {
  const found = waysOf('edge-angle', {}).find(({ way }) => way.kind === 'input');
  expect(found).toMatchObject({
    way: { title: 'Spacing', value: '100 mm' },
    title: 'the angle of the edge',
    unit: 'degree',
  });
  expect(found?.after).toBeCloseTo((found?.before ?? Number.NaN) / 2, 9);
  expect(waysOf('plane-tilt', {}).map(({ unit }) => unit)).not.toContain('mm');
  expect(kinds(waysOf('plane-tilt', { spanX: 40, spanY: 60 }))).toContain('Touches');
  // A corner's place counts for more than its angle.
  expect(waysOf('outside-corner', {}).map(({ unit }) => unit)).not.toContain('degree');
});

test('a reversal is offered where the machine can turn the spindle, and a calibration where there is none', () => {
  const turning = (spindleOrientation: boolean) => {
    const text = JSON.stringify({ machine: { spindleOrientation } });
    return readProfile(text, { path: null, ruleIds: [] }).profile ?? builtInProfile;
  };
  const face = { direction: 'X-' };
  expect(kinds(waysOf('surface', face, turning(true)))).toContain('reversal');
  expect(kinds(waysOf('surface', face, turning(false)))).not.toContain('reversal');
  expect(kinds(waysOf('surface', face, builtInProfile))).toContain('calibration');
});

test('inputs that make no routine have no ways', () => {
  expect(waysOf('bore', { diameter: -3 })).toEqual([]);
});
