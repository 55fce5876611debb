import { lineBeforeFix } from './lineBeforeFix.ts';
import type { Rule } from './rule.ts';
import { callsOf, faultsByBlock } from './touchFaults.ts';

export const probeWithSpindleRunning: Rule = {
  id: 'probe-with-spindle-running',
  severity: 'error',
  title: 'a touch with the spindle turning',
  what: 'M3 or M4 is in force at this touch on some path. M5 and a tool change stop the spindle.',
  why: 'A turning probe is flung about, its cable or battery with it; the stylus strikes the part instead of touching it, and the tip’s run-out goes into the result.',
  instead: 'M5 before the probe comes near the part, and time for the spindle to stand still.',
  source: 'NISTIR 6556, 4.3.6.6 (the spindle must not turn); M6 stops it: NISTIR 6556, 3.6.3',
  fails: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
M3 S6000
G0 X0 Y0
G38.2 Z-10 F40
G0 Z5
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G90 G94
S3000 M4
G0 X0. Y0.
G31 Z-10. F40.
G0 Z5.
M30
`,
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
M3 S6000
G1 X5 F300
T9 M6
G0 X0 Y0
G38.2 Z-10 F40
G0 Z5
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G90 G94
S3000 M3
G1 X5. F300.
M5
G31 Z-10. F40.
G0 Z5.
M30
`,
    },
  ],
  *check({ analysis }) {
    const turning = analysis.touches.filter(({ modes }) =>
      modes.spindle.some((mode) => mode === 'M3' || mode === 'M4'),
    );
    for (const fault of faultsByBlock(turning)) {
      const codes = fault.reached.flatMap(({ modes }) =>
        modes.spindle.filter((mode) => mode === 'M3' || mode === 'M4'),
      );
      yield {
        message: `The spindle turns at this touch (${[...new Set(codes)].join(' or ')} is in force): the stylus strikes the part instead of touching it.`,
        place: fault.touch.place,
        related: callsOf(fault, analysis.source),
        fixes: lineBeforeFix(fault.touch, 'M5', 'Stop the spindle before the touch', analysis.source),
      };
    }
  },
};
