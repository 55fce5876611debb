import { describe, expect, test } from 'vitest';
import { ran } from './fakeTerminal.ts';

const program = `G21 G90 G94 G17 G40
G38.3 Z-5 F60
o1 if [#5070 EQ 0]
  (MSG, no top found)
  M2
o1 endif
G10 L20 P1 Z[#<_z> - #5063]
G0 Z20
M2
`;
const setup = {
  start: [0, 0, 20],
  part: [{ add: 'block', min: [-50, -50, -30], max: [50, 50, 0] }],
  expect: { 'G54.z': { value: 0, tolerance: 0.01 } },
};
const files = (changes: object = {}, text = program) => ({
  '/shop/top.ngc': text,
  '/shop/top.setup.json': JSON.stringify({ ...setup, ...changes }),
});
const command = ['rehearse', 'top.ngc', '--setup', 'top.setup.json'];

describe('rehearse', () => {
  test('JSON as command-line.md has it', async () => {
    const { status, out } = await ran([...command, '--format', 'json', '--fault', 'probe-tripped'], {
      files: files(),
    });
    const result = JSON.parse(out);
    expect(status).toBe(0);
    expect(Object.keys(result)).toEqual(['undisturbed', 'faults', 'verdict']);
    expect(Object.keys(result.undisturbed)).toEqual([
      'outcome',
      'line',
      'message',
      'touches',
      'collisions',
      'workOffsets',
      'datumErrors',
      'parameters',
    ]);
    expect(result.undisturbed).toMatchObject({ outcome: 'datum-right', line: 9, collisions: [] });
    expect(result.undisturbed.touches).toMatchObject([
      { line: 2, direction: [0, 0, -1], surface: [0, 0, 0] },
    ]);
    expect(Math.abs(result.undisturbed.workOffsets.G54[2])).toBeLessThan(0.01);
    expect(result.faults).toEqual([
      {
        fault: 'probe-tripped',
        detail: '',
        touch: 1,
        outcome: 'message-stop',
        line: 2,
        message: expect.stringContaining('tripped before it moves'),
        datumErrors: {},
      },
    ]);
    expect(result.verdict).toBe('pass');
  });

  test('a verdict of fail has status 1, with the JSON all the same', async () => {
    const { status, out } = await ran([...command, '--format', 'json'], { files: files({}, 'G0 Z30\nM2\n') });
    expect(status).toBe(1);
    expect(JSON.parse(out)).toMatchObject({
      undisturbed: { outcome: 'completed', touches: [] },
      verdict: 'fail',
    });
  });

  test('the text shows the matrix, the stories, the cautions and the verdict', async () => {
    const { out } = await ran([...command, '--runs', '20'], { files: files() });
    expect(out).toMatch(/ {2}false-trip[ ·]+1[ ·]*$/m);
    expect(out).toContain('line 2: the probe trips half-way to the surface; line 7 writes G54.z');
    expect(out).toContain('20 runs, seed 1');
    expect(out).toContain('body is not modelled');
    expect(out).toContain('Verdict: fail');
  });

  test('two faults at once', async () => {
    const { out } = await ran([...command, '--format', 'json', '--fault', 'part-absent+feed-doubled'], {
      files: files(),
    });
    expect(JSON.parse(out).faults).toMatchObject([
      { fault: 'part-absent+feed-doubled', outcome: 'message-stop' },
    ]);
  });

  describe('a program that calls another file', () => {
    const height = 'o<height> sub\n  G38.3 Z-5 F60\n  G10 L2 P1 Z[#5063 + #1]\no<height> endsub\n';
    const caller = 'G21 G90 G94 G17 G40\no<height> call [2]\nG0 Z20\nM2\n';
    const shop = { ...files({}, caller), '/shop/height.ngc': height };

    test('JSON has each line with its file and number', async () => {
      const { status, out } = await ran([...command, '--format', 'json', '--fault', 'part-absent'], {
        files: shop,
      });
      const { undisturbed, faults } = JSON.parse(out);
      expect(status).toBe(1);
      expect(undisturbed).toMatchObject({ outcome: 'wrong-datum', line: 3, file: 'height.ngc' });
      expect(undisturbed.touches).toMatchObject([{ line: 2, file: 'height.ngc' }]);
      expect(faults).toMatchObject([{ outcome: 'wrong-datum', line: 3, file: 'height.ngc' }]);
    });

    test('a line of the program itself has none', async () => {
      const hits = { ...shop, '/shop/top.ngc': caller.replace('G0 Z20', 'G0 Z-20') };
      const { out } = await ran([...command, '--format', 'json', '--fault', 'feed-doubled'], { files: hits });
      const { undisturbed } = JSON.parse(out);
      expect(undisturbed).toMatchObject({ outcome: 'collision', line: 3, collisions: [{ line: 3 }] });
      expect(undisturbed).not.toHaveProperty('file');
      expect(undisturbed.collisions[0]).not.toHaveProperty('file');
    });

    test('text too', async () => {
      const { out } = await ran(command, { files: shop });
      expect(out).toContain('wrong-datum, line 3 of height.ngc; 1 touch, ');
      expect(out).toContain('line 3 of height.ngc writes G54.z: 2 mm off');
    });
  });

  test.each([
    ['mm', 'G0 Z-4\nM2\n', 'line 1: the tip meets the part at X0 Y0 Z0 mm, machine coordinates'],
    ['inch', 'G20\nG0 Z-0.2\nM2\n', 'line 2: the tip meets the part at X0 Y0 Z0 inch, machine coordinates'],
  ])(
    'where a collision was is told with its axes, in the units of the setup: %s',
    async (units, text, words) => {
      const size = units === 'mm' ? 1 : 1 / 25.4;
      const part = [{ add: 'block', min: [-50 * size, -50 * size, -1], max: [50 * size, 50 * size, 0] }];
      const { out } = await ran(command, { files: files({ units, start: [0, 0, 20 * size], part }, text) });
      expect(out.replace(/\s+/g, ' ')).toContain(words);
    },
  );

  test('a program that touches nothing fails, and the reason is said', async () => {
    const { status, out } = await ran(command, { files: files({ expect: {} }, 'G0 Z30\nM2\n') });
    expect(status).toBe(1);
    expect(out).toContain('Undisturbed: completed, line 2; 0 touches');
    expect(out).toContain('Verdict: fail: the program made no touch, so nothing that it measures was tried');
  });

  test('errors come in the unit of the setup, those of axes that turn in degrees', async () => {
    const turning = program.replace('G0 Z20', 'G0 Z0.8\nG10 L2 P1 A[#5070 / 2]');
    const inch = {
      units: 'inch',
      start: [0, 0, 0.8],
      part: [{ add: 'block', min: [-2, -2, -1], max: [2, 2, 0] }],
      expect: { 'G54.z': { value: 0.1, tolerance: 0.01 }, 'G54.a': { value: 0, tolerance: 0.01 } },
    };
    const given = { files: files(inch, turning.replace('G21', 'G20').replaceAll('F60', 'F2')) };
    const { out } = await ran([...command, '--fault', 'feed-doubled', '--runs', '3'], given);
    expect(out).toMatch(/^ {2}G54\.z {2}-0\.1000\d\d inch off$/m);
    expect(out).toMatch(/^ {2}G54\.a {2}\+0\.50000 degrees off$/m);
    expect(out).toMatch(/^ {2}G54\.z {2}mean -0\.100.*inch$/m);
    expect(out.replace(/\s+/g, ' ')).toContain('writes G54.a: 0.5 degrees off');
  });

  test('runs with chance are no part of the verdict, and that is said where one goes wrong', async () => {
    const said = 'The verdict is that of the runs without chance';
    const { out } = await ran([...command, '--runs', '20'], { files: files() });
    expect(out).not.toContain(said);
    // One-direction repeatability of 0.002 mm against a tolerance of a hundredth of it.
    const expectTight = { 'G54.z': { value: 0, tolerance: 0.00002 } };
    const given = { files: files({ expect: expectTight }, program) };
    const { status, out: tight } = await ran([...command, '--runs', '20', '--fault', 'part-absent'], given);
    expect(tight).toMatch(/With chance.*wrong-datum/);
    expect(tight).toContain(said);
    expect(tight).toContain('Verdict: pass');
    expect(status).toBe(0);
  });

  test('runs with chance count a message that stops them, also where nothing is expected', async () => {
    const refusing = program.replace('[#5070 EQ 0]', '[#5063 LT 5]');
    const { out } = await ran([...command, '--runs', '5', '--format', 'json'], {
      files: files({ expect: {} }, refusing),
    });
    expect(JSON.parse(out).monteCarlo.outcomes).toEqual({ 'contact-stop': 5 });
  });

  test.each([
    [
      'an unknown key of the setup',
      command,
      files({ exspect: {} }),
      /top\.setup\.json:1:\d+: exspect: .*"expect"/,
    ],
    ['an unknown fault', [...command, '--fault', 'gremlins'], files(), /no such fault/],
    ['no such setup', ['rehearse', 'top.ngc', '--setup', 'none.json'], files(), /none\.json: no such setup/],
    ['a setup of bytes', command, { ...files(), '/shop/top.setup.json': '\0\0' }, /no text/],
    ['no such program', ['rehearse', 'none.ngc', '--setup', 'top.setup.json'], files(), /none\.ngc/],
    ['runs that are no number', [...command, '--runs', 'many'], files(), /--runs many/],
    ['no setup', ['rehearse', 'top.ngc'], files(), /--setup/],
  ])('%s: status 2 and a sentence', async (_, argv, given, words) => {
    const { status, out, error } = await ran(argv, { files: given });
    expect(status).toBe(2);
    expect(out).toBe('');
    expect(error).toMatch(words);
  });
});
