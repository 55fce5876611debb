import { describe, expect, test } from 'vitest';
import { type DatumErrorResult, datumError } from '../../server/analysis/error.ts';
import { monteCarlo } from '../../server/rehearsal/monteCarlo.ts';
import type { DialectName } from '../../server/syntax/dialect.ts';
import { aProfile, aSetup, aSource } from '../rehearsal/rehearsed.ts';
import { analysed } from './analysed.ts';

/** Positioning and the calibration's own uncertainty are not drawn in a rehearsal: here they are nothing. */
const file = {
  probe: {
    tipDiameter: 4,
    calibration: {
      effectiveDiameter: 3.98,
      expandedUncertainty: 0,
      feed: 60,
      harmonics: [{ order: 3, cosine: 0.003, sine: 0.001 }],
    },
    repeatability: 0.002,
  },
  machine: { tripLatency: 0.001, latchPeriod: 0.004, resolution: 0.002, positioningUncertainty: 0 },
};
const profile = aProfile(file);
// One touch at 60 mm/min: repeatability, latch period and resolution (error-model.md, section 4).
const single = Math.hypot(0.002, (1 * 0.004) / Math.sqrt(12), 0.002 / Math.sqrt(12));
const degrees = 180 / Math.PI;

const head = 'G21 G90 G94 G17 G40\nG0 X10 Y-20\n';
const edge = `${head}G38.2 Y20 F60\n#1 = #5062\nG0 Y-20\nG0 X90\nG38.2 Y20 F60\n#2 = #5062\nG0 Y-20\n`;
const inch = edge
  .replace('G21', 'G20')
  .replace(/([XYF])(-?)(\d+)/g, (_, letter, sign, n) => `${letter}${sign}${Number(n) / 25.4}`);
const macro = `${head}G31 Y20. F60.\nIF [#5062 GT 19.9] THEN #3000=1 (MISSED)\n#1=#5062\nG0 Y-20.
G0 X90.\nG31 Y20. F60.\nIF [#5062 GT 19.9] THEN #3000=1 (MISSED)\n#2=#5062\nG0 Y-20.\n`;
const bore = `${head.replace('X10 Y-20', 'X0 Y0')}G38.2 X20 F60\n#1 = #5061\nG0 X0\nG38.2 X-20 F60\n#2 = #5061\nG0 X0
G38.2 Y20 F60\n#3 = #5062\nG0 Y0\nG38.2 Y-20 F60\n#4 = #5062\nG0 Y0\n`;

const tilt = `${head}G0 Y-20\nG38.2 Z-20 F60\n#1 = #5063\nG0 Z30\nG0 X90\nG38.2 Z-20 F60\n#2 = #5063\nG0 Z30\n`;

function resultOf(program: string, dialect: DialectName = 'rs274ngc'): DatumErrorResult | null {
  const datum = analysed(program, dialect, profile).storedResults.at(-1);
  if (!datum) throw new Error('no result is left');
  return datumError(datum, profile);
}

describe('the angle of an edge has u = √2·u(touch)/L, in degrees (JCGM 100:2008, 5.1.2, from memory)', () => {
  test.each<[string, string, DialectName?]>([
    ['ATAN of two', `${edge}#3 = ATAN[#2 - #1]/[80]\nM2`],
    ['of a quotient', `${edge}#<slope> = [[#2 - #1] / 80]\n#3 = ATAN[#<slope>]/[1]\nM2`],
    ['with what it is turned by beside it', `${edge}#3 = [90 + ATAN[#2 - #1]/[80]]\nM2`],
    ['of the sine', `${edge}#3 = ASIN[[#2 - #1] / 80]\nM2`],
    ['that the program turns by', `${edge}#3 = ATAN[#2 - #1]/[80]\nG10 L2 P1 R#3\nM2`],
    ['in inches', `${inch}#3 = ATAN[#2 - #1]/[${80 / 25.4}]\nM2`],
    ['in the other dialect', `O1\n${macro}#3=ATAN[#2-#1]/[80.]\nG68 X0 Y0 R#3\nG69\nM30`, 'macro'],
  ])('%s', (_, program, dialect) => {
    const error = resultOf(program, dialect);
    expect(error).toMatchObject({ unit: 'degrees', firstOrder: true, notIncluded: [] });
    expect(error?.bias).toBeCloseTo(0, 9);
    expect(error?.standardUncertainty).toBeCloseTo((degrees * Math.SQRT2 * single) / 80, 6);
  });
});

describe('other results that are no sums', () => {
  test.each<[string, string, number, number]>([
    // √(x·y) goes with half of each width where the widths are equal; r(0) + r(180) + r(90) + r(270) has no odd lobes.
    ['a mean diameter', `${bore}#5 = [SQRT[[#1 - #2] * [#3 - #4]] + 3.98]\nM2`, 0, single],
    ['a width by its size', `${bore}#5 = [ABS[#2 - #1] + 3.98]\nM2`, 0, single * Math.SQRT2],
    [
      'a centre by its size, without the lobes',
      `${bore}#5 = [[#1 + #2] / 2 * 1]\nM2`,
      -0.003,
      single / Math.SQRT2,
    ],
  ])('%s', (_, program, bias, uncertainty) => {
    const error = resultOf(program);
    expect(error?.unit).toBe('mm');
    expect(error?.bias).toBeCloseTo(bias, 9);
    expect(error?.standardUncertainty).toBeCloseTo(uncertainty, 9);
  });

  test.each<[string, string]>([
    ['an area, whose slopes are the sides', `${bore}#5 = [[#1 - #2] * [#3 - #4]]\nM2`],
    [
      'the distance of a centre from where it should be',
      `${bore}#5 = SQRT[[#1 + #2] ** 2 + [#3 + #4] ** 2]\nM2`,
    ],
    ['steps', `${edge}#5 = ROUND[#1]\nM2`],
    [
      'what paths leave behind',
      `${edge}o1 if [#9 GT 1]\n#5 = ATAN[#2]/[80]\no1 else\n#5 = #1\no1 endif\n#6 = [#5 * #5]\nM2`,
    ],
  ])('%s: not known', (_, program) => expect(resultOf(program)).toBeNull());
});

const runs = 4_000;

describe(`${runs} rehearsed runs spread as the slopes say (JCGM 101:2008)`, () => {
  const wall = { add: 'block', min: [-20, 0, -30], max: [120, 60, 0] };
  const pocket = [
    { add: 'block', min: [-80, -80, -30], max: [80, 80, 0] },
    { cut: 'pocket', min: [-16, -16, -30], max: [16, 16, 0] },
  ];
  const ground = { ...wall, min: [-20, -40, -30], max: [120, 0, 0] };
  test.each<[string, string, readonly number[], readonly object[], number]>([
    [
      'an angle written to a rotary axis',
      `${edge}#5 = ATAN[#2 - #1]/[80]\nG10 L2 P1 C#5\nM2`,
      [10, -20, -10],
      [wall],
      0,
    ],
    ['a tilt', `${tilt}#5 = ATAN[#2 - #1]/[80]\nM2`, [10, 0, 30], [ground], 0],
    ['a mean diameter', `${bore}#5 = [SQRT[[#1 - #2] * [#3 - #4]] + 3.98]\nM2`, [0, 0, -10], pocket, 32],
  ])('%s', (_, program, start, part, value) => {
    const expectations = { '#5': { value, tolerance: 0.1 } };
    const setup = aSetup({ start, workOffsets: { G54: [0, 0, 0] }, part, expect: expectations });
    const { spreads } = monteCarlo(aSource(program), setup, profile, { runs, seed: 5 });
    const { datums, storedResults } = analysed(program, 'rs274ngc', profile);
    const found = [...datums, ...storedResults].map((datum) => datumError(datum, profile));
    expect(found.length).toBe(program.includes('G10') ? 2 : 1);
    const [spread] = spreads;
    if (!spread) throw new Error('nothing was drawn');
    for (const error of found) {
      const u = error?.standardUncertainty ?? Number.NaN;
      expect(Math.abs(spread.mean - (error?.bias ?? Number.NaN))).toBeLessThan((5 * u) / Math.sqrt(runs));
      expect(Math.abs((spread.standardDeviation ?? 0) / u - 1)).toBeLessThan(5 / Math.sqrt(2 * runs));
    }
  });
});
