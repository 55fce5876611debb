import type { Touch } from '../analysis/model.ts';
import { lineBeforeFix } from './lineBeforeFix.ts';
import type { Rule } from './rule.ts';
import { callsOf, faultsByBlock } from './touchFaults.ts';

export const probeWithCutterCompensation: Rule = {
  id: 'probe-with-cutter-compensation',
  severity: 'error',
  title: 'a touch under cutter radius compensation',
  what: 'G41 or G42 is in force at this touch on some path.',
  why: 'RS274/NGC raises an error. Elsewhere the path of the probe is shifted by a cutter’s radius, and the latched position with it.',
  instead: 'G40 before the touch, in a block of its own while the tool is clear.',
  source: 'NISTIR 6556, 3.5.9.1',
  fails: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
G41 D3
G0 X0 Y0
G38.2 X20 F40
G0 X0
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G90 G94
IF[#101EQ0]GOTO3
G42 D3
N3 G0 X0. Y0.
G31 X20. F40.
G0 X0.
M30
`,
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
G41 D3
G1 X5 F100
G40
G0 X0 Y0
G38.2 X20 F40
G0 X0
M2
`,
    },
  ],
  *check({ analysis }) {
    // In the macro family G41.1 and G42.1 control the tool's direction, and nothing is offset.
    const on = analysis.source.dialect.name === 'macro' ? /^G4[12]$/ : /^G4[12]/;
    const codesAt = ({ modes }: Touch) => modes.cutterCompensation.filter((mode) => on.test(mode));
    for (const fault of faultsByBlock(analysis.touches.filter((touch) => codesAt(touch).length > 0))) {
      const codes = [...new Set(fault.reached.flatMap(codesAt))];
      yield {
        message: `${codes.join(' or ')} is in force at this touch: RS274/NGC raises an error, and elsewhere the approach and the latch are off by a cutter’s radius.`,
        place: fault.touch.place,
        related: callsOf(fault, analysis.source),
        fixes: lineBeforeFix(
          fault.touch,
          'G40',
          'Cancel cutter compensation before the touch',
          analysis.source,
        ),
      };
    }
  },
};
