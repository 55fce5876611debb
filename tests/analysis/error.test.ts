import { expect, test } from 'vitest';
import { touchError } from '../../server/analysis/error.ts';
import { readProfile } from '../../server/profile/profile.ts';
import { analysed } from './analysed.ts';

const { profile } = readProfile(
  `{ "probe": { "tipDiameter": 6, "calibration": { "effectiveDiameter": 5.96, "expandedUncertainty": 0.004, "feed": 50,
    "harmonics": [{ "order": 3, "cosine": 0.003, "sine": 0 }] } }, "machine": { "tripLatency": 0.002 } }`,
  { path: null, ruleIds: [] },
);
if (!profile) throw new Error('the profile of this test can not be read');

function errorOf(program: string) {
  if (!profile) throw new Error('unreachable');
  const analysis = analysed(program, 'rs274ngc', profile);
  return analysis.touches.map((touch) => touchError(touch, analysis, profile)).at(-1);
}

const setUp = 'G21 G90 G94\nG0 X0 Y0 Z0\n';

// error-model.md, section 1: after an unoriented turn of the spindle the lobes count by their mean only.
test.each([
  ['M5', 2.983],
  ['M3 S500\nM5', 2.98],
  ['M70\nM3 S500\nM5\nM72', 2.98],
  ['o10 sub\nM73\nM3 S500\nM5\no10 endsub\no10 call', 2.98],
  ['M3 S500\nM5\nM19 R0', 2.983],
])('the radius shown is the one that the bias is made of, after %j', (spindle, radius) => {
  const error = errorOf(`${setUp}${spindle}\nG38.2 X20 F50\nG0 X0\nM2\n`);
  expect(error?.effectiveRadius).toBeCloseTo(radius, 12);
  expect(error?.bias).toBeCloseTo(2.98 - radius, 12);
});

test('M72 and the return after M73 put the position back into the units that were saved', () => {
  for (const inch of ['M70\nG20 G0 X1\nM72', 'o10 sub\nM73\nG20 G0 X1\no10 endsub\no10 call']) {
    const [touch] = analysed(
      `${setUp}${inch}\nG38.2 X30 F50\nG0 X0\nM2\n`,
      'rs274ngc',
      profile ?? undefined,
    ).touches;
    expect(touch?.travel).toBeCloseTo(30 - 25.4, 9);
  }
});
