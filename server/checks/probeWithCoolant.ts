import { lineBeforeFix } from './lineBeforeFix.ts';
import type { Rule } from './rule.ts';
import { callsOf, faultsByBlock } from './touchFaults.ts';

export const probeWithCoolant: Rule = {
  id: 'probe-with-coolant',
  severity: 'warning',
  title: 'a touch with the coolant on',
  what: 'M7 or M8 is in force at this touch on some path. M9 turns both off.',
  why: 'Coolant pushes chips between the tip and the surface, loads the stylus and blinds an optical link: the touch trips early, late or not at all.',
  instead: 'M9 before the probe comes near the part, and clean the surface that it is to touch.',
  source: 'common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
M8
G0 X0 Y0
G38.2 Z-10 F40
G0 Z5
M2
`,
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
M8
G1 X5 F300
M9
G38.2 Z-10 F40
G0 Z5
M2
`,
    },
  ],
  *check({ analysis }) {
    const wet = analysis.touches.filter(({ modes }) => modes.coolant.some(isOn));
    for (const fault of faultsByBlock(wet)) {
      const codes = new Set(fault.reached.flatMap(({ modes }) => modes.coolant.filter(isOn)));
      yield {
        message: `The coolant is on at this touch (${[...codes].join(' or ')} is in force): chips and the jet itself can trip the probe or keep it from the surface.`,
        place: fault.touch.place,
        related: callsOf(fault, analysis.source),
        fixes: lineBeforeFix(fault.touch, 'M9', 'Turn the coolant off before the touch', analysis.source),
      };
    }
  },
};

function isOn(mode: string): boolean {
  return mode.startsWith('M7') || mode === 'M8';
}
