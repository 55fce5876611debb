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
    const compensated = analysis.touches.filter(({ modes }) =>
      modes.cutterCompensation.some((mode) => /^G4[12]/.test(mode)),
    );
    for (const fault of faultsByBlock(compensated)) {
      const codes = fault.reached.flatMap(({ modes }) =>
        modes.cutterCompensation.filter((mode) => mode !== 'G40'),
      );
      yield {
        message: `${[...new Set(codes)].join(' or ')} is in force at this touch: RS274/NGC raises an error, and elsewhere the approach and the latch are off by a cutter’s radius.`,
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
