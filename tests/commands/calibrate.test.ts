import { describe, expect, test } from 'vitest';
import { readProfile } from '../../server/profile/profile.ts';
import { noise } from '../probe/calibration/noise.ts';
import { evenly, type Touched, type Truth, touched } from '../probe/calibration/touched.ts';
import { cwd, ran } from './fakeTerminal.ts';

/** The touches of a truth as the file of a person who measures in mm. */
function csv(truth: Truth, layout: readonly Touched[], units = 1): string {
  const rows = touched(truth, layout).map(({ direction, x, y, speed, spindle }) => [
    direction,
    (x / units).toFixed(6),
    (y / units).toFixed(6),
    ...(speed === null ? [] : [(speed * 60) / units]),
    ...(spindle === null ? [] : [spindle]),
  ]);
  const [first] = layout;
  const header = [
    'direction',
    'x',
    'y',
    ...(first?.speed ? ['feed'] : []),
    ...(first?.spindle === undefined ? [] : ['spindle']),
  ];
  return `${[header, ...rows].map((row) => row.join(',')).join('\n')}\n`;
}

const lobes = [{ order: 3, cosine: 0.004, sine: 0 }];
const ring = {
  files: {
    '/shop/ring.csv': csv(
      { lobes, noise: noise(1, 0.0003) },
      evenly(12).map((each) => ({ ...each, speed: 1 })),
    ),
  },
};
const options = ['--reference-diameter', '25', '--reference-uncertainty', '0.001', '--tip-diameter', '4'];

const calibrated = (argv: readonly string[] = [], situation = ring as Parameters<typeof ran>[1]) =>
  ran(['calibrate', 'ring.csv', ...options, ...argv], situation);

const withFiles = (files: Readonly<Record<string, string>>) => ({ files: { ...ring.files, ...files } });

describe('JSON', () => {
  test('has the keys of the contract first', async () => {
    const { out, status } = await calibrated(['--format', 'json']);
    expect(status).toBe(0);
    const found = JSON.parse(out);
    expect(Object.keys(found).slice(0, 16)).toEqual([
      'effectiveDiameter',
      'standardUncertainty',
      'expandedUncertainty',
      'coverageFactor',
      'centre',
      'meanPreTravel',
      'preTravelVariation',
      'harmonics',
      'notObservable',
      'condition',
      'residualStandardDeviation',
      'degreesOfFreedom',
      'largestResidual',
      'latency',
      'directions',
      'outliers',
    ]);
    expect(found.effectiveDiameter).toBeCloseTo(3.96, 3);
    expect(found).toMatchObject({ latency: null, degreesOfFreedom: 7, feed: 60, notObservable: [] });
    expect(Object.keys(found.directions[0])).toEqual([
      'row',
      'direction',
      'spindle',
      'effectiveRadius',
      'residual',
    ]);
  });

  test.each(['block', 'gap'] as const)('a %s has its axis', async (kind) => {
    const file = csv({ kind }, [{ direction: 0 }, { direction: 180 }]);
    const { out } = await calibrated(['--reference-kind', kind, '--format', 'json'], {
      files: { '/shop/ring.csv': file },
    });
    expect(JSON.parse(out)).toMatchObject({ axis: 0, reference: { kind, size: 25 } });
  });
});

describe('text', () => {
  test('says the diameter with its uncertainty, the lobes and each touch', async () => {
    const { out } = await calibrated();
    expect(out).toContain('ring.csv  ring of 25.0000 mm ±1.0 µm, 12 touches\n');
    expect(out).toMatch(/diameter {10}effective 3\.9[56]\d\d mm ±\d\.\d µm \(U, 95 %, k = /);
    expect(out).toContain('order 3: ');
    expect(out).toMatch(/line {2}2 {4}0\.0° {2}r 1\.98/);
  });

  test('four touches: what becomes of three-lobed pre-travel', async () => {
    const { out } = await calibrated([], { files: { '/shop/ring.csv': csv({ lobes }, evenly(4)) } });
    expect(out.replaceAll(/\s+/g, ' ')).toContain(
      "Four touches turn three-lobed pre-travel into a shift of the ring's centre by its full size; seven or more, evenly spaced, tell it apart.",
    );
  });

  test('an outlier is named with its line, stays in, and goes when asked', async () => {
    const next = noise(1, 0.0003);
    const file = csv({ lobes, noise: (index) => next() + (index === 5 ? 0.02 : 0) }, evenly(16));
    const situation = { files: { '/shop/ring.csv': file } };
    const { out } = await calibrated([], situation);
    expect(out.replaceAll(/\s+/g, ' ')).toContain('line 7 stands out from the others: residual');
    expect(out.replaceAll(/\s+/g, ' ')).toContain('chance alone does so in about 5 % of all calibrations');
    const without = await calibrated(['--without', '7'], situation);
    expect(without.out).toContain('15 touches, without line 7\n');
    expect(without.out).not.toContain('out from the others');
  });

  test('inches throughout', async () => {
    const file = csv({ size: 25.4 }, evenly(8), 25.4);
    const { out } = await ran(
      ['calibrate', 'ring.csv', '--reference-diameter', '1', '--tip-diameter', '0.15748', '--units', 'inch'],
      { files: { '/shop/ring.csv': file } },
    );
    expect(out).toContain('ring of 1.00000 in');
    expect(out).toContain('effective 0.15591 in');
  });

  test('two feeds: the latency, and which feed the diameter holds for', async () => {
    const layout = evenly(8).flatMap((each) => [1, 5].map((speed) => ({ ...each, speed })));
    const { out } = await calibrated([], { files: { '/shop/ring.csv': csv({ latency: 0.002 }, layout) } });
    expect(out).toContain('latency           2.00 ms');
    expect(out.replaceAll(/\s+/g, ' ')).toContain(
      'several feeds (60 mm/min and 300 mm/min): the diameter holds for 60',
    );
  });

  test('feeds of which one is in inches are said to be that', async () => {
    const layout = evenly(8).map((each, index) => ({ ...each, speed: index % 2 === 0 ? 1 : 1 / 25.4 }));
    const file = csv({}, layout);
    const { out } = await calibrated([], { files: { '/shop/ring.csv': file } });
    expect(out.replaceAll(/\s+/g, ' ')).toContain(
      'one 25.4 times the other: the column feed looks like mm on some lines and inches on others',
    );
  });

  test('coordinates in inches are refused where the tip is not known too', async () => {
    const files = { '/shop/ring.csv': csv({}, evenly(8), 25.4) };
    const result = await ran(['calibrate', 'ring.csv', '--reference-diameter', '25'], { files });
    expect(result.status).toBe(2);
    expect(result.error).toContain('which no tip has here. Check the reference size, its unit and its kind.');
  });

  test('a feed that slipped in is named with its line', async () => {
    const layout = evenly(12).map((each, index) => ({ ...each, speed: index === 4 ? 5 : 1 }));
    const { out } = await calibrated([], { files: { '/shop/ring.csv': csv({}, layout) } });
    expect(out.replaceAll(/\s+/g, ' ')).toContain('several feeds (60 mm/min and 300 mm/min on line 6)');
  });

  test('an effective diameter over the actual one is an error, exit status 1', async () => {
    const result = await calibrated([], { files: { '/shop/ring.csv': csv({ radius: 2.01 }, evenly(8)) } });
    expect(result.status).toBe(1);
    expect(result.out).toContain('larger than the tip by 20.0 µm');
  });
});

describe('--write', () => {
  const write = ['--write', '--date', '2025-03-31', '--temperature', '20.5'];

  test('puts the result into the nearest profile and leaves the rest alone', async () => {
    const before = '{\n  // the day shift\n  "probe": { "tipDiameter": 4, "tool": 99 }\n}\n';
    const result = await calibrated(write, withFiles({ '/shop/probewright.json': before }));
    expect(result.status).toBe(0);
    expect(result.out).toContain('Written into probewright.json.\n');
    const text = result.file('/shop/probewright.json')?.toString() ?? '';
    expect(text).toContain('// the day shift');
    const { profile } = readProfile(text, { path: null, ruleIds: [] });
    expect(profile?.probe.tool).toBe(99);
    expect(profile?.probe.calibration).toMatchObject({
      date: '2025-03-31',
      feed: 60,
      temperature: 20.5,
      degreesOfFreedom: 7,
      touches: 'ring.csv',
    });
    expect(profile?.probe.calibration?.effectiveDiameter).toBeCloseTo(3.96, 3);
  });

  test('begins a profile beside the touches, with the tip', async () => {
    const result = await ran(['calibrate', 'day/ring.csv', ...options, ...write], {
      files: { '/shop/day/ring.csv': ring.files['/shop/ring.csv'] },
    });
    expect(result.out).toContain('Written into day/probewright.json, a new file.');
    const { profile } = readProfile(result.file('/shop/day/probewright.json')?.toString() ?? '', {
      path: null,
      ruleIds: [],
    });
    expect(profile?.probe).toMatchObject({ tipDiameter: 4, calibration: { touches: 'ring.csv' } });
  });

  test('mends a profile whose last calibration is impossible with a new tip', async () => {
    const old = '{ "probe": { "tipDiameter": 4, "calibration": { "effectiveDiameter": 5.9 } } }';
    const files = withFiles({ '/shop/probewright.json': old });
    expect((await calibrated([], files)).error).toContain('probe.calibration.effectiveDiameter is 5.9 mm');
    const result = await calibrated(write, files);
    expect(result.status).toBe(0);
    const text = result.file('/shop/probewright.json')?.toString() ?? '';
    expect(
      readProfile(text, { path: null, ruleIds: [] }).profile?.probe.calibration?.effectiveDiameter,
    ).toBeCloseTo(3.96, 3);
  });

  test('a named profile, new or not', async () => {
    const result = await calibrated([...write, '--profile', 'other.json']);
    expect(result.file('/shop/other.json')?.toString()).toContain('"effectiveDiameter"');
  });

  test.each([
    [
      'the tip differs',
      '{"probe":{"tipDiameter":6}}',
      'effective radius would be 1.980 mm, which no tip has here',
      [],
    ],
    [
      'the option differs from the profile',
      '{"probe":{"tipDiameter":4.002}}',
      'nothing was written: --tip-diameter is 4.0000 mm and probe.tipDiameter 4.0020 mm',
      ['--tip-diameter', '4'],
    ],
  ])('nothing is written where %s', async (_, profile, message, more) => {
    const files = withFiles({ '/shop/probewright.json': profile });
    const argv = ['calibrate', 'ring.csv', '--reference-diameter', '25', ...write, ...more];
    const result = await ran(argv, files);
    expect(result.status).toBe(2);
    expect(result.error).toContain(message);
    expect(result.file('/shop/probewright.json')?.toString()).toBe(profile);
  });

  test('a tip in mm is that of a profile in inches, rounded there', async () => {
    const files = withFiles({
      '/shop/probewright.json': '{ "units": "inch", "probe": { "tipDiameter": 0.15748 } }',
    });
    const argv = ['calibrate', 'ring.csv', '--units', 'mm', '--reference-diameter', '25', ...write];
    const result = await ran([...argv, '--tip-diameter', '4'], files);
    expect(result).toMatchObject({ status: 0, error: '' });
    expect(result.file('/shop/probewright.json')?.toString()).toContain('"tipDiameter": 0.15748');
  });

  test('a calibration that is null is mended', async () => {
    const files = withFiles({ '/shop/probewright.json': '{ "probe": { "calibration": null } }' });
    const result = await calibrated(write, files);
    expect(result).toMatchObject({ status: 0, error: '' });
    expect(result.file('/shop/probewright.json')?.toString()).toContain('"effectiveDiameter"');
  });

  test('run-out larger than the pre-travel is no negative pre-travel', async () => {
    const runout = [...lobes, { order: 1, cosine: 0.05, sine: 0 }];
    const turned = [0, 180].flatMap((spindle) => evenly(8).map((touch) => ({ ...touch, spindle })));
    const files = { files: { '/shop/ring.csv': csv({ lobes: runout }, turned) } };
    const result = await calibrated(write, files);
    expect(result).toMatchObject({ status: 0, error: '' });
    expect(result.file('/shop/probewright.json')?.toString()).toContain('"order": 1');
  });

  test('nothing is written where the pre-travel would be negative', async () => {
    const files = { files: { '/shop/ring.csv': csv({ radius: 2.01 }, evenly(8)) } };
    const result = await calibrated(write, files);
    expect(result.status).toBe(2);
    expect(result.error).toContain('nothing was written, the profile would be impossible');
    expect(result.file('/shop/probewright.json')).toBeUndefined();
  });

  test('nothing is written where the profile cannot be', async () => {
    const result = await calibrated([...write, '--profile', 'locked.json']);
    expect(result).toMatchObject({ status: 2, out: '' });
    expect(result.error).toContain('locked.json: cannot be written: no permission.');
  });
});

describe('--history', () => {
  const line = (date: string, effectiveDiameter: number) =>
    `${JSON.stringify({ date, effectiveDiameter, expandedUncertainty: 0.001, tipDiameter: 4 })}\n`;
  const past = line('2025-01-01', 3.9601) + line('2025-02-01', 3.96) + line('2025-03-01', 3.9602);

  test('adds a calibration with --write, shows the trend, and shows it alone', async () => {
    const files = withFiles({ '/shop/past.jsonl': past });
    const result = await calibrated(['--history', 'past.jsonl', '--write', '--date', '2025-04-01'], files);
    expect(result.out).toContain('past.jsonl  calibrations: 4\n');
    expect(result.out).toContain('Added to past.jsonl.');
    const after = result.file('/shop/past.jsonl')?.toString() ?? '';
    expect(after.startsWith(past)).toBe(true);
    const alone = await ran(['calibrate', '--history', 'past.jsonl'], {
      files: { '/shop/past.jsonl': after },
    });
    expect(alone.out).toContain('trend             none that can be seen');
    const json = await ran(['calibrate', '--history', 'past.jsonl', '--format', 'json'], {
      files: { '/shop/past.jsonl': after },
    });
    expect(JSON.parse(json.out).entries).toHaveLength(4);
  });

  test('writes nothing without --write', async () => {
    const result = await calibrated(['--history', 'past.jsonl'], withFiles({ '/shop/past.jsonl': past }));
    expect(result.out).toContain('calibrations: 4');
    expect(result.file('/shop/past.jsonl')?.toString()).toBe(past);
  });

  test('the one that the profile names is added to by --write alone', async () => {
    const profile = '{ "probe": { "tipDiameter": 4, "history": "past/all.jsonl" } }';
    const files = withFiles({ '/shop/probewright.json': profile, '/shop/past/all.jsonl': past });
    const dry = await calibrated([], files);
    expect(dry.out).not.toContain('calibrations:');
    const result = await calibrated(['--write', '--date', '2025-04-01'], files);
    expect(result.out).toContain('past/all.jsonl  calibrations: 4\n');
    expect(result.out).toContain('Added to past/all.jsonl.');
    const added = result.file('/shop/past/all.jsonl')?.toString().split('\n').at(-2) ?? '';
    expect(JSON.parse(added)).toMatchObject({ date: '2025-04-01', touches: '../ring.csv', tipDiameter: 4 });
  });

  test('once named stands in the profile, which is added to from then on', async () => {
    const files = withFiles({ '/shop/probewright.json': '{ "probe": { "tipDiameter": 4 } } // mill 3' });
    const first = await calibrated(
      ['--history', 'log/past.jsonl', '--write', '--date', '2025-04-01'],
      withFiles({
        '/shop/probewright.json': '{ "probe": { "tipDiameter": 4 } } // mill 3',
        '/shop/log/past.jsonl': past,
      }),
    );
    const profile = first.file('/shop/probewright.json')?.toString() ?? '';
    expect(profile).toContain('"history": "log/past.jsonl"');
    expect(profile).toContain('// mill 3');
    const history = first.file('/shop/log/past.jsonl')?.toString() ?? '';
    const again = await calibrated(
      ['--write', '--date', '2025-05-01'],
      withFiles({ '/shop/probewright.json': profile, '/shop/log/past.jsonl': history }),
    );
    expect(again.out).toContain('log/past.jsonl  calibrations: 5\n');
    const without = await calibrated(['--write'], files);
    expect(without.file('/shop/probewright.json')?.toString()).not.toContain('history');
  });

  test('beside another that the profile names is said', async () => {
    const profile = '{ "probe": { "tipDiameter": 4, "history": "old.jsonl" } }';
    const files = withFiles({ '/shop/probewright.json': profile, '/shop/past.jsonl': past });
    const result = await calibrated(['--history', 'past.jsonl', '--write', '--date', '2025-04-01'], files);
    expect(result.out.replaceAll(/\s+/g, ' ')).toContain(
      'probewright.json names another history, old.jsonl: this calibration was not added there. Added to past.jsonl.',
    );
    expect(result.file('/shop/probewright.json')?.toString()).toContain('"history": "old.jsonl"');
  });

  test('is drawn with --picture', async () => {
    const files = { files: { '/shop/past.jsonl': past } };
    const drawn = await ran(['calibrate', '--history', 'past.jsonl', '--picture', 'past.svg'], files);
    expect(drawn.out).toContain('Picture: past.svg.');
    expect(drawn.file('/shop/past.svg')?.toString()).toContain('3 calibrations, from 3.960 mm');
    const refused = await ran(['calibrate', '--history', 'past.jsonl', '--picture', 'past.jsonl'], files);
    expect(refused).toMatchObject({ status: 2, out: '' });
    expect(refused.file('/shop/past.jsonl')?.toString()).toBe(past);
  });

  test('a broken history stops everything before anything is written', async () => {
    const files = withFiles({ '/shop/past.jsonl': `${past}{"date":\n` });
    const result = await calibrated(['--history', 'past.jsonl', '--write'], files);
    expect(result).toMatchObject({ status: 2, out: '' });
    expect(result.error).toContain('past.jsonl:4: no JSON object.');
    expect(result.file('/shop/probewright.json')).toBeUndefined();
  });
});

describe('--verify', () => {
  const profile = JSON.stringify({
    probe: {
      tipDiameter: 4,
      repeatability: 0.0005,
      calibration: {
        effectiveDiameter: 3.96,
        expandedUncertainty: 0.001,
        harmonics: [{ order: 3, cosine: 0.004, sine: 0 }],
      },
    },
  });
  const cross = [0, 180, 90, 270].map((direction) => ({ direction }));
  const verified = (truth: Truth, more: readonly string[] = []) =>
    ran(['calibrate', 'ring.csv', '--reference-diameter', '25', '--verify', ...more], {
      files: { '/shop/ring.csv': csv({ lobes, ...truth }, cross), '/shop/probewright.json': profile },
    });

  test('holds, with 0; calibrate again, with 1', async () => {
    const holds = await verified({});
    expect(holds.status).toBe(0);
    expect(holds.out).toContain('verdict           the calibration holds as far as these touches see');
    const again = await verified({ radius: 1.99 });
    expect(again.status).toBe(1);
    expect(again.out.replaceAll(/\s+/g, ' ')).toContain(
      'calibrate again: the effective diameter moved by +20.0 µm',
    );
    expect(JSON.parse((await verified({}, ['--format', 'json'])).out)).toMatchObject({ verdict: 'holds' });
  });

  test('has a table to fill in, with the spindle where the machine turns it', async () => {
    const table = (profile: string) =>
      ran(['calibrate', '--verify', '--format', 'csv'], { files: { '/shop/probewright.json': profile } });
    expect((await table('{}')).out).toMatch(
      /in mm;.*\n.*\ndirection,x,y,feed\n0,,,\n180,,,\n90,,,\n270,,,\n$/,
    );
    const turned = await table(
      '{ "units": "inch", "machine": { "spindleOrientation": true }, "feeds": { "measuring": 2 }, "probe": { "calibration": { "spindle": 300 } } }',
    );
    expect(turned.out).toContain('in inch; feed per minute');
    expect(turned.out).toMatch(/270,,,2,0\n0,,,2,90\n180,,,2,90\n$/);
    const empty = await ran(['calibrate', 'check.csv', '--reference-diameter', '25', '--verify'], {
      files: { '/shop/check.csv': turned.out, '/shop/probewright.json': profile },
    });
    expect(empty.error).toContain('check.csv:4: x is empty.');
  });

  test('without a calibration there is nothing to compare', async () => {
    const result = await calibrated(['--verify']);
    expect(result).toMatchObject({ status: 2, out: '' });
    expect(result.error).toContain('there is no calibration to compare with');
  });
});

describe('--design', () => {
  const design = (argv: readonly string[]) => ran(['calibrate', '--design', ...argv]);

  test('says where to touch and what it will tell', async () => {
    const { out } = await design(['8', '--reference-uncertainty', '0.001']);
    expect(out).toContain('8 touches of a ring  predicted, nothing has been touched\n');
    expect(out).toContain('told apart        three-lobed pre-travel');
  });

  test('turns the spindle where the machine does so by itself', async () => {
    const profile = '{"machine":{"spindleOrientation":true}}';
    const { out } = await ran(['calibrate', '--design', '14'], {
      files: { '/shop/probewright.json': profile },
    });
    expect(out).toContain('told apart        run-out of the tip and three-lobed pre-travel');
  });

  test('a whole turn is the same spindle angle, and an angle that is offered is not asked for', async () => {
    const whole = await design(['8', '--spindle', '0,360']);
    expect(whole.out).not.toContain('two spindle angles');
    expect(whole.out).toContain('a second spindle angle shows it (--spindle 0,180)');
    const offered = await design(['8', '--spindle', '0,180']);
    expect(offered.out.replaceAll(/\s+/g, ' ')).toContain(
      'Five even directions at spindle 0° and three even directions at spindle 180°;',
    );
    expect(offered.out.replaceAll(/\s+/g, ' ')).toContain('hardly known: ten touches make it ±');
    expect(offered.out).not.toContain('a second spindle angle shows it');
    const few = await design(['7', '--spindle', '0,180']);
    expect(few.out).toContain('one spindle angle does not show it');
  });

  test('writes a table that is read back once it is filled', async () => {
    const { out } = await design(['7', '--format', 'csv', '--spindle', '0']);
    const empty = await calibrated([], { files: { '/shop/ring.csv': out } });
    expect(empty.error).toContain('ring.csv:4: x is empty.');
    const layout = out
      .split('\n')
      .filter((line) => /^\d/.test(line))
      .map((line) => ({ direction: Number(line.split(',')[0]), spindle: 0 }));
    expect(layout).toHaveLength(7);
    const filled = await calibrated([], { files: { '/shop/ring.csv': csv({ lobes }, layout) } });
    expect(filled.out).toContain('effective 3.9600 mm');
  });

  test('a sphere has its 25 touches', async () => {
    const { out } = await design(['25', '--reference-kind', 'sphere', '--format', 'csv']);
    expect(out.split('\n').filter((line) => /^\d/.test(line))).toHaveLength(25);
    expect(
      JSON.parse((await design(['25', '--reference-kind', 'sphere', '--format', 'json'])).out).touches,
    ).toHaveLength(25);
  });

  test.each([
    [['2'], '--design 2: a whole number of touches from 3 to 200.'],
    [['many'], '--design many: a whole number'],
    [['12', '--reference-kind', 'sphere'], 'on a sphere 25 touches are offered'],
    [['12', '--reference-kind', 'gap'], 'designs are for ring, plug and sphere'],
    [['4', '--spindle', '0,90,180'], 'two touches or more are needed at each angle'],
  ])('%j is refused', async (argv, message) => {
    const result = await design(argv);
    expect(result).toMatchObject({ status: 2, out: '' });
    expect(result.error).toContain(message);
  });
});

test('--method shows the equations and their sources', async () => {
  const { out } = await ran(['calibrate', '--method']);
  expect(out).toContain('r(n) = r_lat·cos²ε + r_ax·sin²ε');
  expect(out).toContain('ISO 10360-5');
});

describe('what cannot be done ends with 2, names it, and shows nothing', () => {
  const radians = csv({}, evenly(8)).replaceAll(
    /^(\d+),/gm,
    (_, degrees) => `${(Number(degrees) * Math.PI) / 180},`,
  );
  test.each<[string, readonly string[], string, string?]>([
    ['no touches', ['calibrate'], 'name the CSV file with the touches; or --design N'],
    [
      'no such file',
      ['calibrate', 'none.csv', ...options],
      'none.csv: cannot be read: no such file or folder.',
    ],
    ['a folder', ['calibrate', cwd, ...options], '/shop: a folder; name a file.'],
    ['no size', ['calibrate', 'ring.csv'], '--reference-diameter: state the diameter'],
    [
      'a size that is none',
      ['calibrate', 'ring.csv', '--reference-diameter', '-1'],
      '--reference-diameter -1: a length',
    ],
    [
      'a ring in inches',
      ['calibrate', 'ring.csv', '--reference-diameter', '0.984', '--tip-diameter', '4'],
      'looks like inches',
    ],
    [
      'a plug',
      ['calibrate', 'ring.csv', ...options, '--reference-kind', 'plug'],
      'that is a ring, touched from inside',
    ],
    [
      'a line that has no touch',
      ['calibrate', 'ring.csv', ...options, '--without', '1'],
      'no touch stands on line 1',
    ],
    [
      'orders that are none',
      ['calibrate', 'ring.csv', ...options, '--harmonics', '3,x'],
      '--harmonics 3,x: a list such as 3,6.',
    ],
    [
      'a day that is none',
      ['calibrate', 'ring.csv', ...options, '--date', '2025-02-30'],
      '--date 2025-02-30: a day',
    ],
    [
      'csv',
      ['calibrate', 'ring.csv', ...options, '--format', 'csv'],
      '--format csv goes with --design, or with --verify before touching.',
    ],
    [
      'verify and write',
      ['calibrate', 'ring.csv', ...options, '--verify', '--write'],
      '--verify changes nothing',
    ],
    ['an unknown option', ['calibrate', 'ring.csv', '--no-such'], "unknown option '--no-such'"],
    [
      'an uncertainty under 0',
      ['calibrate', 'ring.csv', ...options, '--reference-uncertainty', '-1'],
      '--reference-uncertainty -1: a length of 0 or more, such as 0.001.',
    ],
    [
      'one touch',
      ['calibrate', 'ring.csv', ...options],
      '1 touch, and at least 3 are needed.',
      csv({}, evenly(1)),
    ],
    ['radians', ['calibrate', 'ring.csv', ...options], 'when they are read as radians', radians],
    [
      'two touches',
      ['calibrate', 'ring.csv', ...options],
      '2 touches, and at least 3 are needed.',
      csv({}, evenly(2)),
    ],
    [
      'one side',
      ['calibrate', 'ring.csv', ...options],
      'stand on one side',
      csv(
        {},
        [0, 5, 10, 15].map((direction) => ({ direction })),
      ),
    ],
    [
      'a fault in a line',
      ['calibrate', 'ring.csv', ...options],
      'ring.csv:2: x is "NaN", no number.',
      'direction,x,y\n0,NaN,1\n',
    ],
    ['binary', ['calibrate', 'ring.csv', ...options], 'ring.csv: binary, no text.', '\0\u0001\u0002'],
  ])('%s', async (_, argv, message, file) => {
    const files = file === undefined ? ring.files : { '/shop/ring.csv': file };
    const result = await ran(argv, { files });
    expect(result).toMatchObject({ status: 2, out: '' });
    expect(result.error).toContain(message);
  });
});
