import { expect, test } from 'vitest';
import { ruleIds } from '../../server/checks/registry.ts';
import { effectiveProfilePage } from '../../server/editor/effectiveProfilePage.ts';
import { profileTemplate } from '../../server/editor/profileTemplate.ts';
import { builtInProfile, readProfile } from '../../server/profile/profile.ts';
import { fileProfile, noProfileFile } from '../../server/workspace/fileProfile.ts';

const options = { path: null, ruleIds };

test('the template states nothing: with it, built-in values are still known as built in', () => {
  const { profile, problems } = readProfile(profileTemplate(), options);
  expect(problems).toEqual([]);
  expect(profile?.source('probe.tipDiameter')).toBe('built-in');
  expect(profile?.probe).toEqual(builtInProfile.probe);
  expect(profile?.machine).toEqual(builtInProfile.machine);
});

test('every line of the template can be taken in, one by one and all together', () => {
  const lines = profileTemplate().split('\n');
  const stated = (line: string) => line.replace(/^(\s*)\/\/ (".*,)$/, '$1$2');
  const values = lines.map((line, at) => (stated(line) === line ? -1 : at)).filter((at) => at >= 0);
  expect(values.length).toBeGreaterThan(40);
  for (const wanted of values) {
    const text = lines.map((line, at) => (at === wanted ? stated(line) : line)).join('\n');
    expect(readProfile(text, options).problems, lines[wanted]).toEqual([]);
  }
  expect(readProfile(lines.map(stated).join('\n'), options).problems).toEqual([]);
});

test('the page of a profile says of each value where it comes from, in the units of the file', () => {
  const text =
    '{ "units": "inch", "probe": { "tipDiameter": 0.25 }, "feeds": { "measuring": 2 }, "rules": { "syntax": "info" } }';
  const { markdown } = effectiveProfilePage(fileProfile('file:///c%3A/job/probewright.json', text));
  expect(markdown).toContain('From `c:/job/probewright.json`');
  expect(markdown).toContain('| `tipDiameter` | 0.25 in | **profile** |');
  expect(markdown).toContain('| `stemDiameter` | 0.16666667 in | derived |');
  expect(markdown).toContain('| `measuring` | 2 in/min | **profile** |');
  expect(markdown).toContain('| `reactionTime` | 0.01 | built in |');
  expect(markdown).toContain('| `runout` | — | not stated |');
  expect(markdown).toContain('| `syntax` | `info` | **profile** |');
});

test('lobes are told in words and not as a wall of JSON', () => {
  const probe = {
    calibration: { effectiveDiameter: 3.9, harmonics: [{ order: 3, cosine: 0.002, sine: -0.001 }] },
  };
  const { markdown } = effectiveProfilePage(
    fileProfile('file:///probewright.json', JSON.stringify({ probe })),
  );
  expect(markdown).toContain('| order 3: cosine 0.002 mm, sine -0.001 mm | **profile** |');
});

test('without a profile the page says so, and with a broken one what is wrong', () => {
  expect(effectiveProfilePage(noProfileFile).markdown).toContain('every value is the built-in one');
  const broken = fileProfile('file:///job/probewright.json', '{\n"probe": 1 }');
  expect(effectiveProfilePage(broken).markdown).toMatch(/can’t be used as it stands[\s\S]*- line 2: /);
});
