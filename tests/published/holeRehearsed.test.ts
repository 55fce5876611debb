import { describe, expect, test } from 'vitest';
import { idealProbe, rehearsed } from '../rehearsal/rehearsed.ts';
import { named, referenceCase } from './referenceCase.ts';

interface Hole {
  readonly nominal: { x: number; y: number; diameter: number; tip_radius: number };
  readonly true_hole: { x: number; y: number; diameter: number };
}
interface Found {
  readonly params: Readonly<Record<string, number>>;
  readonly first_pass_x_diameter: number;
}

const known = referenceCase<Hole, Found>('RS-HOLE-1');
const { nominal, true_hole: hole } = known.inputs;

/** Written from the report's description of its Table 6: X, Y through the middle found, X again through that. */
const program = (tipRadius: number) => `
G21 G90 G94 G40 G17
#1001 = ${nominal.x}
#1002 = ${nominal.y}
#1003 = [${nominal.diameter} / 2]
#1004 = ${tipRadius}
#1005 = [#1003 - #1004]
G0 X#1001 Y#1002
G1 Z-5 F300
G38.2 X[#1001 + #1005 + 1] F60
#1011 = #5061
G0 X#1001
G38.2 X[#1001 - #1005 - 1] F60
#1021 = [[#1011 + #5061] / 2]
#1013 = [#1011 - #5061 + 2 * #1004]
G0 X#1021
G38.2 Y[#1002 + #1005 + 1] F60
#1012 = #5062
G0 Y#1002
G38.2 Y[#1002 - #1005 - 1] F60
#1022 = [[#1012 + #5062] / 2]
#1014 = [#1012 - #5062 + 2 * #1004]
G0 Y#1022
G38.2 X[#1021 + #1005 + 1] F60
#1031 = #5061
G0 X#1021
G38.2 X[#1021 - #1005 - 1] F60
#1041 = [[#1031 + #5061] / 2]
#1024 = [#1031 - #5061 + 2 * #1004]
G0 X#1041
#1034 = [[#1014 + #1024] / 2]
#1035 = [#1024 - #1014]
G0 Z20
M2
`;
const setup = {
  start: [nominal.x, nominal.y, 20],
  part: [
    { add: 'block', min: [-40, -50, -30], max: [60, 40, 0] },
    { cut: 'bore', center: [hole.x, hole.y], diameter: hole.diameter, top: 0, depth: 30 },
  ],
};
const found = (tipRadius: number) =>
  rehearsed(program(tipRadius), setup, { profile: idealProbe, options: { faults: [] } }).undisturbed.record
    .parameters;

describe(named(known), () => {
  test('the program leaves the parameters of the case behind', () => {
    const parameters = found(nominal.tip_radius);
    for (const [number, value] of Object.entries(known.expected.params))
      expect(parameters.get(`#${number}`), `#${number}`).toBeCloseTo(value, 9);
    expect(parameters.get('#1013')).toBeCloseTo(known.expected.first_pass_x_diameter, 9);
  });

  test('a tip radius that is wrong by 0.003 mm moves the diameter by 0.006 mm and the centre not at all (RS-HOLE-ELL)', () => {
    const [right, wrong] = [found(nominal.tip_radius), found(nominal.tip_radius + 0.003)];
    const change = (name: string) => (wrong.get(name) ?? 0) - (right.get(name) ?? 0);
    expect(change('#1034')).toBeCloseTo(0.006, 9);
    expect(change('#1041')).toBeCloseTo(0, 9);
    expect(change('#1022')).toBeCloseTo(0, 9);
  });
});
