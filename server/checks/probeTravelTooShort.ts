import { lengthText, readerUnit } from './quantity.ts';
import type { Rule } from './rule.ts';
import { callsOf, faultsByBlock } from './touchFaults.ts';

/** NISTIR 6556, 3.5.9.1; mm. */
const leastTravel = 0.254;

export const probeTravelTooShort: Rule = {
  id: 'probe-travel-too-short',
  severity: 'error',
  title: 'the programmed travel of a touch is under 0.254 mm',
  what: 'The touch starts closer than 0.254 mm (0.01 in) to its programmed end. Reported where the travel is known; the macro family has no such limit.',
  why: 'RS274/NGC raises an error instead of moving, and the program stops there.',
  instead: 'Let the touch reach further past the expected surface, or retract further before it.',
  source: 'NISTIR 6556, 3.5.9.1',
  fails: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
G0 X0 Y0
G91
G38.2 Z-0.2 F40
G0 Z5
M2
`,
    },
    {
      dialect: 'rs274ngc',
      program: `G20 G90 G94
G0 Z0.1
G38.2 Z0.095 F1.5
G0 Z1
M2
`,
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
G0 X0 Y0
G91
G38.2 Z-0.254 F40
G0 Z5
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G91 G94
G31 Z-0.2 F40.
G0 Z5.
M30
`,
    },
  ],
  *check({ analysis, profile }) {
    if (analysis.source.dialect.name !== 'rs274ngc') return;
    const short = analysis.touches.filter(
      ({ travel, linearWords }) => travel !== null && linearWords && travel < leastTravel - 1e-6,
    );
    for (const fault of faultsByBlock(short)) {
      const unit = readerUnit(fault.touch.modes, profile);
      yield {
        message: `This touch may travel only ${lengthText(fault.touch.travel ?? 0, unit)}; under ${lengthText(leastTravel, unit)} RS274/NGC raises an error instead of moving.`,
        place: fault.touch.place,
        related: callsOf(fault, analysis.source),
      };
    }
  },
};
