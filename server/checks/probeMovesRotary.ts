import type { Touch } from '../analysis/model.ts';
import type { Rule } from './rule.ts';
import { callsOf, faultsByBlock } from './touchFaults.ts';

export const probeMovesRotary: Rule = {
  id: 'probe-moves-rotary',
  severity: 'error',
  title: 'a touch that would move a rotary axis',
  what: 'The touch has an A, B or C word that differs from where the axis stands. Where its position is not known it is a warning. The macro family allows a touch on a rotary axis alone.',
  why: 'RS274/NGC raises an error. Elsewhere the tip travels on an arc while the linear axes move: the direction of approach, and with it the tip’s radius along it, is not that of the block.',
  instead: 'Turn the axis in a block of its own, with the probe clear, and touch with X, Y and Z alone.',
  source: 'NISTIR 6556, 3.5.9.1',
  fails: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
G0 X0 Y0 A0
G38.2 Z-10 A15 F40
G0 Z5
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G90 G94
G0 Z5. B0.
G31 Z-10. B90. F40.
G0 Z5.
M30
`,
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
G0 X0 Y0 A15
G38.2 Z-10 A15 F40
G0 Z5
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G90 G94
G0 C0.
G31 C20. F40.
G0 C0.
M30
`,
    },
  ],
  *check({ analysis }) {
    const alone = analysis.source.dialect.name === 'macro';
    const turning = analysis.touches.filter(
      (touch) => touch.rotary.length > 0 && (touch.linearWords || !alone),
    );
    for (const fault of faultsByBlock(turning)) {
      const certain = fault.reached.some(moves);
      const axes = [
        ...new Set(fault.reached.flatMap(({ rotary }) => rotary.map(({ axis }) => axis.toUpperCase()))),
      ];
      yield {
        message: `This touch ${certain ? 'would move' : 'moves, unless it stands there already,'} ${axes.join(' and ')}: RS274/NGC raises an error, and elsewhere the tip comes on an arc and not straight.`,
        place: fault.touch.place,
        related: callsOf(fault, analysis.source),
        ...(certain ? {} : { severity: 'warning' as const }),
      };
    }
  },
};

function moves({ rotary }: Touch): boolean {
  return rotary.some((each) => each.moves === 'yes');
}
