import { expect, describe as suite, test } from 'vitest';
import { builtInProfile } from '../../server/profile/profile.ts';
import { planOf } from '../../server/routines/plan.ts';
import {
  describe,
  documentation,
  expectedErrors,
  listRoutines,
  routineNamed,
  routines,
  writeRoutine,
} from '../../server/routines/registry.ts';
import { profiles } from './profiles.ts';

const both = routines.flatMap((routine) =>
  (['mm', 'inch'] as const).map((units) => ({ routine, name: routine.name, units })),
);

suite('generate --list and --describe', () => {
  test('the list has the keys of command-line.md', () => {
    expect(listRoutines().map(({ name }) => name)).toEqual(routines.map(({ name }) => name));
    for (const listed of listRoutines()) {
      expect(Object.keys(listed)).toEqual(['name', 'title', 'summary', 'dialects', 'forms']);
      expect(listed.dialects).toEqual(['rs274ngc', 'macro']);
      expect(listed.forms).toEqual(['inline', 'subroutine']);
    }
  });

  test('a routine is found by its name alone', () => {
    expect(routineNamed('bore')?.title).toBe('Bore');
    for (const name of ['Bore', '', 'toString', '__proto__']) expect(routineNamed(name)).toBeNull();
  });

  test.each(both)('$name in $units has the keys of command-line.md', ({ routine, units }) => {
    for (const profile of Object.values(profiles)) {
      const described = describe(routine, units, profile);
      expect(Object.keys(described)).toEqual(['name', 'title', 'summary', 'inputs', 'results']);
      expect(described.results.map((result) => Object.keys(result).join())).toEqual(
        described.results.map(() => 'name,title'),
      );
      for (const input of described.inputs) {
        expect(Object.keys(input).sort()).toEqual(
          [
            'choices',
            'default',
            'greatest',
            'help',
            'least',
            'name',
            'required',
            'title',
            'type',
            'unit',
          ].sort(),
        );
        expect(input.unit).toBe(
          input.type === 'length' ? { mm: 'mm', inch: 'in' }[units] : input.type === 'angle' ? '°' : null,
        );
        if (input.choices !== null) expect(input.choices.map(({ value }) => value)).toContain(input.default);
        if (typeof input.default !== 'number') continue;
        expect(input.default).toBeGreaterThanOrEqual(input.least ?? Number.NEGATIVE_INFINITY);
        expect(input.default).toBeLessThanOrEqual(input.greatest ?? Number.POSITIVE_INFINITY);
      }
      expect(described.inputs.some(({ required }) => required)).toBe(true);
    }
  });

  test.each(both)('$name in $units is complete with every input at its default', ({ routine, units }) => {
    for (const profile of Object.values(profiles))
      expect(planOf(routine, {}, profile, units)).toHaveProperty('plan');
  });

  test.each(both)('$name in $units is so too where parts are placed roughly', ({ routine, units }) => {
    for (const placementUncertainty of [0.2, 4.6, 6, 9, 40]) {
      const profile = { ...builtInProfile, placementUncertainty };
      expect(planOf(routine, {}, profile, units)).toHaveProperty('plan');
    }
  });

  test('lengths are in the units asked for, defaults as a person would write them', () => {
    const depth = (units: 'mm' | 'inch') =>
      describe(routineNamed('bore') ?? fail('bore'), units, builtInProfile).inputs.find(
        ({ name }) => name === 'depth',
      );
    expect(depth('mm')).toMatchObject({ default: 15, least: 3, greatest: 300, unit: 'mm' });
    expect(depth('inch')).toMatchObject({ default: 0.59, least: 0.1182, greatest: 11.811, unit: 'in' });
  });

  test('a bore can not be declared narrower than the tip and its way back', () => {
    const diameter = describe(routineNamed('bore') ?? fail('bore'), 'mm', builtInProfile).inputs[0];
    expect(diameter?.name).toBe('diameter');
    expect(diameter?.least).toBeGreaterThan(builtInProfile.probe.tipDiameter + 1);
  });
});

suite('inputs are looked at', () => {
  const refusals = (name: string, inputs: Record<string, string | number | boolean>) => {
    const routine = routineNamed(name) ?? fail(name);
    const written = writeRoutine(routine, inputs, {
      profile: builtInProfile,
      dialect: 'macro',
      form: 'inline',
      units: 'mm',
    });
    const expected = expectedErrors(routine, inputs, builtInProfile, 'mm');
    if (!('problems' in written)) return [];
    expect(expected).toEqual(written);
    return written.problems.map((problem) => problem.inputs.join('+'));
  };

  test.each([
    ['bore', { diameter: 'wide' }, ['diameter']],
    ['bore', { diameter: '' }, ['diameter']],
    ['bore', { diameter: true }, ['diameter']],
    ['bore', { diameter: Number.NaN }, ['diameter']],
    ['bore', { diameter: Number.POSITIVE_INFINITY }, ['diameter']],
    ['bore', { diameter: '1e400' }, ['diameter']],
    ['bore', { diameter: '0x19' }, ['diameter']],
    ['plane-tilt', { touches: 2 }, ['touches']],
    ['plane-tilt', { touches: 10 }, ['touches']],
    ['bore', { diameter: 4 }, ['diameter']],
    ['bore', { diameter: 8, agreement: 0.4 }, ['diameter+agreement']],
    ['bore', { diametre: 25 }, ['diametre']],
    ['bore', { becomesX: 1e9 }, ['becomesX']],
    ['bore', { passes: 'four', depth: -1 }, ['depth', 'passes']],
    ['bore', { workOffset: 'G60' }, ['workOffset']],
    ['boss', { diameter: 4, margin: 20 }, ['diameter+margin']],
    ['surface', { direction: 'Z+' }, ['direction']],
    ['surface', { distance: 4, margin: 5 }, ['distance+margin']],
    ['surface', { depth: 0.5 }, ['depth']],
    ['outside-corner', { inset: 4, margin: 5 }, ['inset+margin']],
    ['outside-corner', { constructor: 1 }, ['constructor']],
  ])('%s refuses %j', (name, inputs, problems) => {
    expect(refusals(name, inputs as Record<string, string | number | boolean>)).toEqual(problems);
  });

  test('text that is a number, and choices in any case, are taken', () => {
    expect(refusals('bore', { diameter: ' 25.4 ', passes: 'One', workOffset: 'g55' })).toEqual([]);
    expect(refusals('surface', { depth: '0', direction: 'y-' })).toEqual([]);
  });

  test('a profile whose measuring feed outruns the overtravel is refused with the numbers', () => {
    const profile = { ...builtInProfile, statedMeasuringFeed: 2000 };
    const bore = routineNamed('bore') ?? fail('bore');
    const options = { profile, dialect: 'macro', form: 'inline', units: 'mm' } as const;
    expect(writeRoutine(bore, {}, options)).toMatchObject({
      problems: [{ inputs: [], message: expect.stringContaining('2000 mm/min') }],
    });
  });
});

suite('a page for each routine', () => {
  test.each(both)('$name in $units', ({ routine, units }) => {
    const page = documentation(routine, units, builtInProfile);
    const { before, cautions, moves, unseen } = page;
    expect(before.length).toBeGreaterThan(2);
    expect(cautions).toEqual(routine.cautions);
    expect([...before, ...moves, ...unseen].join(' ')).not.toMatch(/undefined|NaN|null/);
    // What no program survives is said on the page of each.
    expect(moves.join(' ')).toMatch(/probe that gives no signal/);
    const aside = ['plane-tilt', 'stepped-height', 'level-face', 'length-reference'].includes(routine.name);
    expect(unseen).toHaveLength(aside ? 0 : 1);
  });
});

function fail(name: string): never {
  throw new Error(`no routine ${name}`);
}
