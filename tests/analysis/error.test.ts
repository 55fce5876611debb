import { expect, test } from 'vitest';
import { datumError, touchError } from '../../server/analysis/error.ts';
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

// Order 3 of 0.003 mm: towards X+ and X- its waves stand against each other, so a centre has them whole, as u = A/√2.
const whole = 0.003 / Math.SQRT2;
const touched = (x: number, into: string) => `G38.2 X${x} F50\n${into} = #5061\nG0 X0\n`;
const centre = (first: string, second: string) =>
  `${first}\n${touched(20, '#11')}${second}\n${touched(-20, '#12')}G10 L2 P1 X[#5221 + [#11 + #12] / 2]\nM2\n`;
const reversed = (first: string, second: string) =>
  `${first}\n${touched(20, '#11')}${second}\n${touched(20, '#12')}G10 L2 P1 X[#5221 + [#11 + #12] / 2 + 2.98]\nM2\n`;

test.each<[string, string, number, number]>([
  ['the spindle is left alone', centre('', ''), -0.003, 0],
  ['it ran before both touches', centre('M3 S500\nM5', ''), 0, whole],
  ['it ran between them', centre('M19 R0', 'M3 S500\nM5'), -0.0015, whole / 2],
  ['it ran before each', centre('M3 S500\nM5', 'M4 S500\nM5'), 0, whole / Math.SQRT2],
  [
    'it ran before each, in one subroutine',
    `o10 sub\nM3 S500\nM5\no10 endsub\n${centre('o10 call', 'o10 call')}`,
    0,
    whole / Math.SQRT2,
  ],
  ['it may have run', centre('o10 if [#1 GT 0]\nM3 S500\nM5\no10 endif', ''), 0, whole],
  ['it was oriented again', centre('M3 S500\nM5\nM19', ''), -0.003, 0],
  ['it was reversed', reversed('M19 R0', 'M19 R180'), 0, 0],
  ['it was reversed from an angle that the program is given', reversed('M19 R#1', 'M19 R[#1 + 180]'), 0, 0],
  ['both angles are given', reversed('M19 R#1', 'M19 R#2'), 0, whole / Math.SQRT2],
])('the lobes of a datum where %s', (_, program, bias, uncertainty) => {
  const [datum] = analysed(`${setUp}${program}`, 'rs274ngc', profile ?? undefined).datums;
  const error = datum && profile && datumError(datum, profile);
  expect(error?.bias).toBeCloseTo(bias, 12);
  const lobing = error?.components.find(({ name }) => name === 'lobing-3')?.standardUncertainty ?? 0;
  expect(lobing).toBeCloseTo(uncertainty, 12);
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

test.each([
  ['back to the start', 'G0 X0\nG38.2 X20 F200\nG38.4 X0 F50', [1, 0, 0]],
  ['behind the start', 'G0 Y0\nG38.2 Y-20 F200\nG38.5 Y5 F50', [0, -1, 0]],
  ['up to the start', 'G0 Z10\nG38.2 Z-20 F200\nG38.4 Z10 F50', [0, 0, -1]],
  ['on after a retract', 'G0 X0\nG38.2 X20 F200\nG91 G0 X-2\nG90\nG38.2 X20 F50', [1, 0, 0]],
  ['to where it may have been before', 'G0 X0\nG38.2 X20 F200\nG38.4 X10 F50', null],
  ['from an unknown start', 'G38.2 X20 F200\nG38.4 X0 F50', null],
])('the direction of a touch from where another stopped: %s', (_, moves, direction) => {
  const { touches } = analysed(`G21 G90 G94\n${moves}\nM2\n`);
  expect(touches.at(-1)?.direction ?? null).toEqual(direction?.map((n) => expect.closeTo(n, 12)) ?? null);
});
