import { describe, expect, test } from 'vitest';
import { routineNamed, routines } from '../../server/routines/registry.ts';
import { ran } from './fakeTerminal.ts';
import { rehearsedAsBrought } from './setupOut.ts';

const json = async (argv: readonly string[], situation = {}) =>
  JSON.parse((await ran(['generate', ...argv, '--format', 'json'], situation)).out);

describe('--list', () => {
  test('has the keys of the contract', async () => {
    const listed = await json(['--list']);
    expect(listed.map(({ name }: { name: string }) => name)).toEqual(
      expect.arrayContaining(['surface', 'bore', 'boss', 'outside-corner']),
    );
    for (const each of listed) {
      expect(Object.keys(each)).toEqual(['name', 'title', 'summary', 'dialects', 'forms']);
      expect(each).toMatchObject({ dialects: ['rs274ngc', 'macro'], forms: ['inline', 'subroutine'] });
    }
  });

  test('as text names each', async () => {
    const { out, status } = await ran(['generate', '--list']);
    expect(status).toBe(0);
    for (const name of ['surface', 'bore', 'boss', 'outside-corner']) expect(out).toContain(`  ${name} `);
  });
});

describe('--describe', () => {
  test('has the keys of the contract', async () => {
    const described = await json(['bore', '--describe']);
    expect(Object.keys(described)).toEqual(['name', 'title', 'summary', 'inputs', 'results']);
    for (const input of described.inputs)
      expect(Object.keys(input)).toEqual([
        'name',
        'title',
        'help',
        'type',
        'unit',
        'default',
        'least',
        'greatest',
        'choices',
        'required',
      ]);
    for (const result of described.results) expect(Object.keys(result)).toEqual(['name', 'title']);
  });

  test('speaks the units that are asked for, else those of the profile', async () => {
    const unitOf = async (argv: readonly string[], situation = {}) =>
      (await json(['bore', '--describe', ...argv], situation)).inputs[0].unit;
    expect(await unitOf([])).toBe('mm');
    expect(await unitOf(['--units', 'inch'])).toBe('in');
    expect(await unitOf([], { files: { '/shop/probewright.json': '{ "units": "inch" }' } })).toBe('in');
  });

  test('as text says default and limits of each input', async () => {
    const { out } = await ran(['generate', 'bore', '--describe']);
    expect(out).toMatch(/^ {2}diameter +Diameter, 25 mm unless set; [\d.]+ to \d+ mm$/m);
    expect(out).toMatch(/^ {2}centreX +the centre in X$/m);
  });
});

describe('a routine', () => {
  const combinations = ['surface', 'bore', 'boss', 'outside-corner'].flatMap((feature) =>
    ['rs274ngc', 'macro'].flatMap((dialect) =>
      ['inline', 'subroutine'].flatMap((form) =>
        ['mm', 'inch'].map((units) => [feature, dialect, form, units]),
      ),
    ),
  ) as [string, string, string, string][];

  test.each(combinations)('%s %s %s %s passes our own check', async (feature, dialect, form, units) => {
    const options = ['--dialect', dialect, '--form', form, '--units', units];
    const written = await ran(['generate', feature, ...options]);
    expect(written).toMatchObject({ status: 0, error: '' });
    expect(written.out).toContain(units === 'mm' ? 'G21' : 'G20');
    const checked = await ran(['check', '--strict', '--format', 'json', '-'], { standardInput: written.out });
    const { files, summary } = JSON.parse(checked.out);
    expect(summary, JSON.stringify(files)).toMatchObject({ error: 0, warning: 0 });
    expect(files[0].dialect).toBe(dialect);
    expect(checked.status).toBe(0);
  });

  test('takes what is set, one by one or together', async () => {
    const one = await ran(['generate', 'bore', '--set', 'diameter=40', '--set', 'depth=12.5']);
    const together = await ran(['generate', 'bore', '--set', 'diameter=40', 'depth=12.5']);
    expect(one.out).toContain('#<diameter> = 40 ');
    expect(one.out).toContain('#<depth> = 12.5 ');
    expect(together.out).toBe(one.out);
  });

  test('goes into a file, under the profile that holds there', async () => {
    const result = await ran(['generate', 'bore', '-o', 'macros/bore.nc'], {
      files: { '/shop/macros/probewright.json': '{ "dialect": "macro", "units": "inch" }' },
    });
    expect(result).toMatchObject({ status: 0, out: '', error: '' });
    expect(result.file('/shop/macros/bore.nc')?.toString()).toMatch(/G31[\s\S]*M30/);
    expect(result.file('/shop/macros/bore.nc')?.toString()).toContain('G20');
  });
});

describe('--setup-out', () => {
  const each = routines.map(({ name }, index) => [name, index % 2 === 0 ? 'rs274ngc' : 'macro'] as const);
  test.each(each)('%s in %s brings a setup along in which it passes its rehearsal', async (name, dialect) => {
    const { verdict, outcome, best } = await rehearsedAsBrought([name, '--dialect', dialect]);
    expect({ verdict, outcome }).toEqual({ verdict: 'pass', outcome: best });
    const writes = routineNamed(name)?.inputs.some((input) => input.name === 'workOffset');
    if (writes) expect(best).toBe('datum-right');
  });
});

describe('what makes no sense ends with 2, names the input and what it takes', () => {
  test.each([
    [['bor'], 'there is no routine "bor". Did you mean bore?'],
    [[], 'name what to probe: surface, bore'],
    [['bore', '--set', 'diametre=40'], '--set diametre: bore has no input diametre. It has diameter, depth'],
    [
      ['bore', '--set', 'diameter=wide'],
      '--set diameter: Diameter must be a number, not "wide". diameter takes ',
    ],
    [['bore', '--set', 'diameter='], '--set diameter: Diameter must be a number'],
    [['bore', '--set', 'diameter=1e9'], 'diameter takes '],
    [
      ['bore', '--set', 'passes=nine'],
      '--set passes: Passes must be one of two, one. passes takes one of two, one.',
    ],
    [['bore', '--set', 'diameter'], '--set diameter: write name=value'],
    [['bore', '--set', 'diameter=40', 'diameter=41'], '--set diameter: set twice.'],
    [['bore', '--format', 'json'], '--format json goes with --list and --describe'],
    [['bore', '--list', '--setup-out', 's.json'], '--setup-out goes with a routine that is written'],
    [['bore', '-o', 'bore.ngc', '--setup-out', 'bore.ngc'], '--setup-out and -o name the same file'],
    [['bore', '--setup-out', 'locked.json'], 'locked.json: cannot be written: no permission.'],
    [['bore', '-o', 'locked.ngc'], 'locked.ngc: cannot be written: no permission.'],
  ])('%j', async (argv, message) => {
    const result = await ran(['generate', ...argv]);
    expect(result).toMatchObject({ status: 2, out: '' });
    expect(result.error).toContain(message);
  });

  test('a combination is refused as one', async () => {
    const { inputs } = await json(['bore', '--describe']);
    const [diameter] = inputs.filter(({ name }: { name: string }) => name === 'diameter');
    const [agreement] = inputs.filter(({ name }: { name: string }) => name === 'agreement');
    const result = await ran([
      'generate',
      'bore',
      '--set',
      `diameter=${diameter.least}`,
      `agreement=${agreement.greatest}`,
    ]);
    expect(result).toMatchObject({ status: 2, out: '' });
    expect(result.error).toMatch(/--set diameter, \w+: .* diameter takes .* \w+ takes /);
  });
});
