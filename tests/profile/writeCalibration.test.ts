import { describe, expect, test } from 'vitest';
import { readProfile } from '../../server/profile/profile.ts';
import {
  type CalibrationEntry,
  type WriteCalibrationOptions,
  writeCalibration,
} from '../../server/profile/writeCalibration.ts';

const entry: CalibrationEntry = {
  date: '2025-03-31',
  spindle: null,
  effectiveDiameter: 3.9601234567,
  expandedUncertainty: 0.0012,
  coverageFactor: 2.364624,
  feed: 60,
  temperature: null,
  residualStandardDeviation: 0.0005,
  degreesOfFreedom: 7,
  harmonics: [{ order: 3, cosine: 0.004, sine: -0.0010000004 }],
  touches: 'ring.csv',
};

const options: WriteCalibrationOptions = {
  tipDiameter: null,
  history: null,
  units: 'mm',
  path: 'probewright.json',
  ruleIds: ['r'],
};

function written(text: string, changes: Partial<WriteCalibrationOptions> = {}) {
  const result = writeCalibration(text, entry, { ...options, ...changes });
  if ('problems' in result) throw new Error(result.problems.map(({ message }) => message).join('\n'));
  const { profile, problems } = readProfile(result.text, options);
  expect(problems).toEqual([]);
  return { text: result.text, profile };
}

const commented = `{
  // Mill 3, the probe of the day shift.
  "probe": {
    "tipDiameter": 4, /* by micrometer */
    "calibration": {
      // Made by hand.
      "effectiveDiameter": 3.95, // a guess
      "feed": 50,
      "temperature": 21.5
    },
  },
  "rules": { "r": "off" } // too many
}
`;

describe('an existing profile', () => {
  test('keeps its comments, its layout and its other keys', () => {
    const { text, profile } = written(commented);
    for (const kept of [
      '// Mill 3, the probe of the day shift.',
      '/* by micrometer */',
      '// Made by hand.',
      '"effectiveDiameter": 3.960123, // a guess',
      '"rules": { "r": "off" } // too many',
    ])
      expect(text).toContain(kept);
    expect(profile?.probe.calibration).toMatchObject({
      effectiveDiameter: 3.960123,
      expandedUncertainty: 0.0012,
      coverageFactor: 2.3646,
      harmonics: [{ order: 3, cosine: 0.004, sine: -0.001 }],
      touches: 'ring.csv',
    });
    expect(profile?.rules).toEqual({ r: 'off' });
  });

  test('loses what belonged to the calibration before', () => {
    expect(written(commented).profile?.probe.calibration?.temperature).toBeNull();
  });

  test('again gives the same text', () => {
    const once = written(commented).text;
    expect(written(once).text).toBe(once);
  });

  test('in inches stays in inches', () => {
    const { text, profile } = written('{ "units": "inch", "probe": { "tipDiameter": 0.15748 } }');
    expect(text).toContain('"effectiveDiameter": 0.1559104');
    expect(profile?.probe.calibration?.effectiveDiameter).toBeCloseTo(3.960123, 5);
    expect(profile?.probe.calibration?.feed).toBeCloseTo(60, 5);
  });

  test('keeps CRLF, tabs and its byte order mark', () => {
    const { text } = written(`\uFEFF${commented.replaceAll('  ', '\t').replaceAll('\n', '\r\n')}`);
    expect(text.startsWith('\uFEFF{')).toBe(true);
    expect(text.replaceAll('\r\n', '')).not.toContain('\n');
    expect(text).toContain('\t\t\t"date"');
  });

  test('that names a history keeps its name, one that names none gets it', () => {
    const named = '{ "probe": { "tipDiameter": 4, "history": "old.jsonl" /* since 2020 */ } }';
    expect(written(named, { history: 'new.jsonl' }).text).toContain('"old.jsonl", /* since 2020 */');
    expect(written(commented, { history: 'new.jsonl' }).profile?.probe.history).toBe('new.jsonl');
    expect(written(commented).profile?.probe.history).toBeNull();
  });

  test('a comment alone is a profile too', () => {
    expect(written('// nothing yet\n').text).toContain('// nothing yet');
  });

  test('whose last calibration is impossible with the new tip is mended', () => {
    const old = '{ "probe": { "tipDiameter": 4, "calibration": { "effectiveDiameter": 5.9 } } }';
    expect(written(old).profile?.probe.calibration?.effectiveDiameter).toBeCloseTo(3.960123, 6);
  });
});

describe('a new profile', () => {
  test('in the units of the shop, with the tip where it was stated', () => {
    expect(written('', { tipDiameter: 4 }).profile).toMatchObject({ units: 'mm', probe: { tipDiameter: 4 } });
    const inch = written('', { units: 'inch', tipDiameter: 4 });
    expect(inch.profile?.units).toBe('inch');
    expect(inch.text.endsWith('}\n')).toBe(true);
  });
});

describe('nothing is written', () => {
  const refused = (text: string, changed: Partial<CalibrationEntry> = {}) => {
    const result = writeCalibration(text, { ...entry, ...changed }, options);
    if (!('problems' in result)) throw new Error(result.text);
    return result;
  };

  test('where the text is no JSON', () => {
    expect(refused('{ "probe": ').of).toBe('before');
    expect(refused('\u0001').of).toBe('before');
  });

  test('where the profile would be impossible', () => {
    const result = refused('{ "probe": { "tipDiameter": 4 } }', { effectiveDiameter: 4.01 });
    expect(result.of).toBe('after');
    expect(result.problems[0]?.message).toContain('must be at most the actual diameter of the tip');
    const lobes = [{ order: 3, cosine: 0.05, sine: 0 }];
    expect(refused('{ "probe": { "tipDiameter": 4 } }', { harmonics: lobes }).problems[0]?.message).toContain(
      'the pre-travel would be',
    );
  });

  test('where another key has a fault', () => {
    expect(refused('{ "prob": {} }').problems[0]?.message).toContain('there is no such key');
  });
});

test.each(['null', '7', '[]'])(
  'a calibration that is %s gives way, a probe that is it is refused',
  (value) => {
    expect(written(`{ "probe": { "calibration": ${value} } }`).profile?.probe.calibration?.feed).toBe(60);
    const text = `{ "probe": ${value} }`;
    expect(writeCalibration(text, entry, options)).toMatchObject({
      of: 'before',
      problems: [{ key: 'probe' }],
    });
  },
);
