import { describe, expect, test } from 'vitest';
import { datumError } from '../../server/analysis/error.ts';
import type { DialectName } from '../../server/syntax/dialect.ts';
import { analysed } from '../analysis/analysed.ts';
import { aProfile, idealProbe, rehearsed } from './rehearsed.ts';

const lobes = [
  { order: 1, cosine: 0.004, sine: -0.003 },
  { order: 2, cosine: -0.001, sine: 0.002 },
  { order: 3, cosine: 0.01, sine: 0.006 },
];

function lobed(spindle: number) {
  const calibration = {
    effectiveDiameter: 3.9,
    expandedUncertainty: 0.002,
    feed: 60,
    harmonics: lobes,
    spindle,
  };
  return {
    ...idealProbe,
    probe: { ...idealProbe.probe, calibration },
    machine: { ...idealProbe.machine, tripLatency: 0.002, latchPeriod: 0.001 },
  };
}

/** Walls at X ±20 and Y ±30 about the machine's zero. */
const pocket = {
  start: [0, 0, -10],
  workOffsets: { G54: [0, 0, 0] },
  part: [
    { add: 'block', min: [-80, -80, -30], max: [80, 80, 0] },
    { cut: 'pocket', min: [-20, -30, -30], max: [20, 30, 0] },
  ],
};

const head = 'G21 G90 G94 G17 G40\nG54\nG0 X0 Y0\n';
const taken = (axis: string, to: number, into: string, feed = 60) =>
  `G38.2 ${axis}${to} F${feed}\n${into} = #506${axis === 'X' ? 1 : 2}\nG0 ${axis}0\n`;
const write = (value: string, axis = 'X') =>
  `G10 L2 P1 ${axis}[#${axis === 'X' ? 5221 : 5222} + ${value}]\nM2`;

interface Case {
  readonly program: string;
  readonly value: number;
  readonly axis?: 'X' | 'Y';
  readonly spindle?: number;
  readonly dialect?: DialectName;
  /** mm of bias that the odd lobes leave; null: not looked at. */
  readonly left?: number;
}

const both = (into: string) => taken('X', 40, `${into}1`) + taken('X', -40, `${into}2`);

const cases: Readonly<Record<string, Case>> = {
  'a face as the probe was found': {
    program: `${head}${taken('X', 40, '#1')}${write('#1 + 1.95')}`,
    value: 20,
  },
  'a face at 90 degrees of the spindle': {
    program: `${head}M19 R90\n${taken('X', 40, '#1')}${write('#1 + 1.95')}`,
    value: 20,
  },
  'a face in Y-, calibrated at 30 degrees, touched at 75': {
    program: `${head}M19 R75\n${taken('Y', -50, '#1')}${write('#1 - 1.95', 'Y')}`,
    value: -30,
    axis: 'Y',
    spindle: 30,
  },
  'oriented without an angle': {
    program: `${head}M19\n${taken('X', 40, '#1')}${write('#1 + 1.95')}`,
    value: 20,
    spindle: 45,
  },
  'a face by reversal': {
    program: `${head}M19 R0\n${taken('X', 40, '#1')}M19 R180\n${taken('X', 40, '#2')}${write('[#1 + #2] / 2 + 1.95')}`,
    value: 20,
    left: 0.001,
  },
  'a centre by reversal': {
    program: `${head}M19 R0\n${both('#1')}M19 R180\n${both('#2')}${write('[#11 + #12 + #21 + #22] / 4')}`,
    value: 0,
    left: 0,
  },
  'a centre with a turn between its sides, at two feeds': {
    program: `${head}M19 R10\n${taken('X', 40, '#1', 120)}M19 R130\n${taken('X', -40, '#2')}${write('[#1 + #2] / 2')}`,
    value: 0,
  },
  'a reversal in a subroutine that turns the spindle itself': {
    program: `o10 sub\nM19 R#1\n${taken('X', 40, '#<a>')}${taken('X', -40, '#<b>')}o10 endsub [[#<a> + #<b>] / 2]
${head}o10 call [0]\n#<one> = #<_value>\no10 call [180]\n${write('[#<one> + #<_value>] / 2')}`,
    value: 0,
    left: 0,
  },
  'a face by reversal in the other dialect, the angle in R and in S': {
    dialect: 'macro',
    program: `O1\n${head}M19 R0.\nG31 X40. F60.\nIF [ABS[#5061 - 40.] LT 0.01] THEN #3000=1 (MISSED)\n#1=#5061\nG0 X0.
M19 S180.\nG31 X40. F60.\nIF [ABS[#5061 - 40.] LT 0.01] THEN #3000=1 (MISSED)\n#2=#5061\nG0 X0.
G10 L2 P1 X[#5221+[#1+#2]/2.+1.95]\nM30`,
    value: 20,
    left: 0.001,
  },
};

describe('the bias of `error` is what the rehearsal makes of the program', () => {
  test.each(Object.entries(cases))('%s', (_, { program, value, axis = 'X', spindle = 0, dialect, left }) => {
    const target = `G54.${axis.toLowerCase()}`;
    const profile = lobed(spindle);
    const expectations = { [target]: { value, tolerance: 1 } };
    const { undisturbed } = rehearsed(
      program,
      { ...pocket, spindle, expect: expectations },
      { dialect: dialect ?? 'rs274ngc', profile, options: { faults: [] } },
    );
    const read = aProfile(profile);
    const [datum] = analysed(program, dialect ?? 'rs274ngc', read).datums;
    const bias = datum && datumError(datum, read)?.bias;
    expect(undisturbed.outcome.errors.get(target)).toBeCloseTo(bias ?? Number.NaN, 6);
    if (left !== undefined) expect(bias).toBeCloseTo(left, 12);
  });
});
