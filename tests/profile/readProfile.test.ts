import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { builtInProfile, readProfile } from '../../server/profile/profile.ts';
import { problemsOf, profileOf, ruleIds } from './aProfile.ts';

describe('what a profile does not say', () => {
  test.each([
    ['nothing', ''],
    ['blanks and a byte order mark', '\uFEFF \r\n\t'],
    ['a comment alone', '// later\n/* really */'],
    ['an empty object', '{}'],
  ])('%s is the built-in profile', (_, text) => {
    const { source, path, ...profile } = profileOf(text);
    const { source: builtInSource, path: noPath, ...builtIn } = builtInProfile;
    expect(profile).toEqual(builtIn);
    expect([path, noPath]).toEqual(['probewright.json', null]);
    expect([source('probe.tipDiameter'), builtInSource('probe.tipDiameter')]).toEqual([
      'built-in',
      'built-in',
    ]);
  });

  test('the built-in values are those of the profile page', () => {
    expect(builtInProfile).toMatchObject({
      units: 'mm',
      dialect: null,
      probe: {
        tool: null,
        tipDiameter: 4,
        stylus: { length: 50, material: 'tungsten-carbide' },
        seat: { radius: 8, preload: 2.5, angle: null },
        overtravel: { lateral: 5, axial: 3 },
        repeatability: 0.002,
        release: 0.3,
        runout: null,
        history: null,
        calibration: null,
      },
      machine: {
        deceleration: 100,
        reactionTime: 0.01,
        tripLatency: 0.001,
        latchPeriod: 0.001,
        resolution: 0.001,
        positioningUncertainty: 0.01,
        afterTrip: 'stops-past',
        travel: null,
        spindleOrientation: false,
        temperatureSpread: null,
        material: 'steel',
      },
      feeds: { positioning: 1500, search: 200, measuring: 40 },
      routines: { parameters: { first: 100, last: 199 } },
      overtravelSafetyFactor: 2,
      placementUncertainty: null,
      effectiveDiameterParameter: null,
      rules: {},
    });
    expect(builtInProfile.probe.stylus.stemDiameter).toBeCloseTo((4 * 2) / 3, 12);
  });

  test('the stem follows a stated tip, the repeatability a stated residual, the measuring feed the calibration', () => {
    const profile = profileOf({
      probe: {
        tipDiameter: 6,
        calibration: {
          effectiveDiameter: 5.98,
          residualStandardDeviation: 0.0007,
          degreesOfFreedom: 5,
          feed: 30,
        },
      },
    });
    expect(profile.probe.stylus.stemDiameter).toBeCloseTo(4, 12);
    expect(profile.probe.repeatability).toBe(0.0007);
    expect(profile.feeds.measuring).toBe(30);
    for (const key of ['probe.stylus.stemDiameter', 'probe.repeatability', 'feeds.measuring'])
      expect(profile.source(key)).toBe('derived');
    expect(profile.source('probe.tipDiameter')).toBe('profile');
    expect(profile.source('probe.calibration')).toBe('profile');
    expect(profile.source('probe.stylus')).toBe('built-in');
  });

  test('harmonics that are absent were never observed, an empty list was observed and is none', () => {
    const harmonics = (calibration: object) =>
      profileOf({ probe: { calibration } }).probe.calibration?.harmonics;
    expect(harmonics({ effectiveDiameter: 3.9 })).toBeNull();
    expect(harmonics({ effectiveDiameter: 3.9, harmonics: [] })).toEqual([]);
    expect(harmonics({ effectiveDiameter: 3.9, harmonics: [{ order: 3, sine: 0.001 }] })).toEqual([
      { order: 3, cosine: 0, sine: 0.001 },
    ]);
  });

  test('a calibration without an effective diameter counts as none, save its feed', () => {
    const profile = profileOf({ probe: { calibration: { feed: 25, expandedUncertainty: 0.001 } } });
    expect(profile.probe.calibration).toBeNull();
    expect(profile.statedMeasuringFeed).toBe(25);
  });

  test('an axis whose travel is left out has no end', () => {
    expect(profileOf({ machine: { travel: { x: 400 } } }).machine.travel).toEqual({
      x: 400,
      y: Infinity,
      z: Infinity,
    });
  });
});

test('comments and trailing commas are welcome, and so is the name of a schema', () => {
  const profile = profileOf('{ // shop\n "$schema": "./schema.json", "probe": { "tool": 99, /* T99 */ }, }');
  expect(profile.probe.tool).toBe(99);
});

describe('faults name the key and the place', () => {
  const cases: readonly (readonly [string, string, string, string])[] = [
    ['a typo', '{ "probe": { ^"tipDiametr"^: 4 } }', 'probe.tipDiametr', 'Did you mean "tipDiameter"?'],
    ['a swapped pair', '{ ^"uints"^: "mm" }', 'uints', 'Did you mean "units"?'],
    [
      'a key in the wrong group',
      '{ "probe": { ^"effectiveDiameter"^: 3.98 } }',
      'probe.effectiveDiameter',
      'Did you mean "probe.calibration.effectiveDiameter"?',
    ],
    ['an unlike key', '{ ^"colour"^: "red" }', 'colour', 'there is no such key.'],
    ['a prototype', '{ ^"__proto__"^: {} }', '__proto__', 'there is no such key.'],
    ['an unknown rule', '{ "rules": { ^"mode-asumed"^: "off" } }', 'rules.mode-asumed', '"mode-assumed"'],
    [
      'a wrong severity',
      '{ "rules": { "mode-assumed": ^"warn"^ } }',
      'rules.mode-assumed',
      '"warning" or "error"',
    ],
    ['a wrong unit', '{ "units": ^"in"^ }', 'units', 'it must be "mm" or "inch"'],
    ['a text for a number', '{ "probe": { "tipDiameter": ^"4"^ } }', 'probe.tipDiameter', 'must be a number'],
    [
      'nothing for a number',
      '{ "probe": { "runout": ^null^ } }',
      'probe.runout',
      'is null; it must be a number',
    ],
    ['a negative tip', '{ "probe": { "tipDiameter": ^-4^ } }', 'probe.tipDiameter', 'greater than 0'],
    ['no tip', '{ "probe": { "tipDiameter": ^0^ } }', 'probe.tipDiameter', 'greater than 0'],
    ['a negative latency', '{ "machine": { "tripLatency": ^-0.001^ } }', 'machine.tripLatency', 'at least 0'],
    ['no deceleration', '{ "machine": { "deceleration": ^0^ } }', 'machine.deceleration', 'greater than 0'],
    ['a number without end', '{ "probe": { "release": ^1e999^ } }', 'probe.release', 'too large a number'],
    ['half a tool', '{ "probe": { "tool": ^1.5^ } }', 'probe.tool', 'a whole number'],
    [
      'an unknown material',
      '{ "machine": { "material": ^"aluminum"^ } }',
      'machine.material',
      'Did you mean "aluminium"?',
    ],
    [
      'a day that is none',
      '{ "probe": { "calibration": { "date": ^"31.3.2025"^ } } }',
      'probe.calibration.date',
      '2025-03-31',
    ],
    [
      'a parameter that is none',
      '{ "effectiveDiameterParameter": ^"5410"^ }',
      'effectiveDiameterParameter',
      '#5410',
    ],
    [
      'order 0',
      '{ "probe": { "calibration": { "harmonics": [ { "order": ^0^ } ] } } }',
      'probe.calibration.harmonics[0].order',
      'at least 1',
    ],
    [
      'a harmonic without its order',
      '{ "probe": { "calibration": { "harmonics": [ ^{ "cosine": 1 }^ ] } } }',
      'probe.calibration.harmonics[0].order',
      'is missing',
    ],
    [
      'a key that stands twice',
      '{ "feeds": { "search": 1, ^"search"^: 2 } }',
      'feeds.search',
      'stands twice',
    ],
    ['a list as profile', '^[ 1 ]^', '', 'The file is a list'],
    ['a group that is a number', '{ "probe": ^7^ }', 'probe', 'must be a group'],
    [
      'a range without a number',
      '{ "routines": { "parameters": ^{ "first": 500, "last": 499 }^ } }',
      'routines.parameters',
      'there is no number in it',
    ],
    [
      'larger than the tip',
      '{ "probe": { "tipDiameter": 4, "calibration": { "effectiveDiameter": ^4.001^ } } }',
      'probe.calibration.effectiveDiameter',
      'at most the actual diameter of the tip, probe.tipDiameter, 4 mm.',
    ],
    [
      'larger than the built-in tip',
      '{ "units": "inch", "probe": { "calibration": { "effectiveDiameter": ^0.2^ } } }',
      'probe.calibration.effectiveDiameter',
      '0.15748 in (built in: state your own)',
    ],
    [
      'lobes larger than the pre-travel',
      '{ "probe": { "calibration": { "effectiveDiameter": 3.99, "harmonics": ^[ { "order": 3, "cosine": -0.006 } ]^ } } }',
      'probe.calibration.harmonics',
      'the pre-travel would be -0.001 mm in the direction 60°',
    ],
    [
      'a latency that eats the pre-travel',
      '{ "machine": { "tripLatency": 0.01 }, "probe": { "calibration": { "effectiveDiameter": ^3.99^, "feed": 60 } } }',
      'probe.calibration.effectiveDiameter',
      'the pre-travel would be -0.005 mm, latency at the calibration taken off',
    ],
    [
      'an order that stands twice',
      '{ "probe": { "calibration": { "effectiveDiameter": 3.9, "harmonics": [ { "order": 3 }, { "order": ^3^ } ] } } }',
      'probe.calibration.harmonics[1].order',
      'already',
    ],
    [
      'a residual of nothing',
      '{ "probe": { "calibration": { "effectiveDiameter": 3.9, "residualStandardDeviation": 0.001, "degreesOfFreedom": ^0^ } } }',
      'probe.calibration.degreesOfFreedom',
      'leave it out',
    ],
    ['a missing colon', '{ "units" ^"mm"^ }', '', 'a colon is expected'],
    ['NaN', '{ "probe": { "tipDiameter": ^NaN^ } }', '', 'no JSON value'],
  ];

  test.each(cases)('%s', (_, marked, key, words) => {
    const start = marked.indexOf('^');
    const end = marked.lastIndexOf('^') - 1;
    const problems = problemsOf(marked.replaceAll('^', ''));
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({ key, line: 0, start, endLine: 0, end });
    expect(problems[0]?.message).toContain(words);
    expect(problems[0]?.message).toContain(key);
  });

  test.each(['\n', '\r\n', '\r'])('lines end with %j', (end) => {
    const [problem] = problemsOf(['{', '  "probe": {', '    "tol": 3', '  }', '}'].join(end));
    expect(problem).toMatchObject({ key: 'probe.tol', line: 2, start: 4, endLine: 2, end: 9 });
  });

  test('every fault of a file is told, in its order', () => {
    const keys = problemsOf('{ "a": 1, "probe": { "runout": -1, "b": 2 }, "feeds": { "search": "x" } }').map(
      ({ key }) => key,
    );
    expect(keys).toEqual(['a', 'probe.runout', 'probe.b', 'feeds.search']);
  });
});

describe('what is allowed at its edge', () => {
  test('every tolerance, latency, resolution and uncertainty may be 0', () => {
    const machine = {
      reactionTime: 0,
      tripLatency: 0,
      latchPeriod: 0,
      resolution: 0,
      positioningUncertainty: 0,
    };
    const calibration = { effectiveDiameter: 4, expandedUncertainty: 0, residualStandardDeviation: 0 };
    const probe = { repeatability: 0, release: 0, runout: 0, calibration };
    expect(problemsOf({ probe, machine, placementUncertainty: 0 })).toEqual([]);
  });

  test('an effective diameter equal to the tip, whatever the built-in latency', () => {
    const calibration = { effectiveDiameter: 6, feed: 100 };
    expect(problemsOf({ probe: { tipDiameter: 6, calibration } })).toEqual([]);
  });

  test('lobes that just use up the pre-travel, also in inches', () => {
    const calibration = { effectiveDiameter: 0.1548, harmonics: [{ order: 3, cosine: 0.0006 }] };
    expect(problemsOf({ units: 'inch', probe: { tipDiameter: 0.156, calibration } })).toEqual([]);
  });
});

describe('files that are no profile', () => {
  test.each([
    ['a binary', '\u0000\u0001PNG\uFFFD'],
    ['40 MB', 'x'.repeat(40_000_000)],
    ['100,000 brackets', '['.repeat(100_000)],
    ['deep groups', '{"a":'.repeat(50_000)],
    ['a long line', `"${'a'.repeat(900_000)}`],
  ])('%s: one sentence', (_, text) => {
    const problems = problemsOf(text);
    expect(problems).toHaveLength(1);
    expect(problems[0]?.message.length).toBeLessThan(200);
  });

  test('no text at all makes it throw, and a profile that it refuses says why', () => {
    const text = fc.oneof(
      fc.string({ unit: 'binary' }),
      fc.json(),
      fc.json().map((json) => json.slice(0, json.length / 2)),
      fc
        .array(fc.constantFrom('{', '}', '[', ']', '"', ':', ',', 'probe', '1', '/*', '//', '\n', '\uD800'))
        .map((parts) => parts.join('')),
    );
    fc.assert(
      fc.property(text, (input) => {
        const { profile, problems } = readProfile(input, { path: null, ruleIds });
        expect(profile === null).toBe(problems.length > 0);
        const lines = input.split(/\r\n|\r|\n/);
        for (const { line, start, endLine, end, message } of problems) {
          expect(message).not.toBe('');
          expect(start).toBeGreaterThanOrEqual(0);
          expect(start).toBeLessThanOrEqual((lines[line]?.length ?? NaN) + 1);
          expect(endLine > line || end >= start).toBe(true);
        }
      }),
      { numRuns: 500 },
    );
  });
});
