import type { Rule } from './rule.ts';
import { callsOf, faultsByBlock } from './touchFaults.ts';

export const probeNotSelected: Rule = {
  id: 'probe-not-selected',
  severity: 'warning',
  title: 'a touch with another tool in the spindle than the probe',
  what: 'On some path the program has put another tool into the spindle than the one that the profile names as the probe (`probe.tool`). Where the profile names none, or the program changes no tool, nothing is said.',
  why: 'A cutter or a tool holder is driven against the part and nothing trips: the search runs to its end, at its feed, through whatever stands there.',
  instead: 'Change to the probe (T and M6) before the touch, on every path that leads there.',
  source: 'common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      program: 'G21 G90 G94\nT4 M6\nG38.2 Z-10 F40\nG0 Z5\nM2\n',
      profile: '{ "probe": { "tool": 99 } }',
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program: 'G21 G90 G94\nT4 M6\nG1 X5 F300\nT99 M6\nG38.2 Z-10 F40\nG0 Z5\nM2\n',
      profile: '{ "probe": { "tool": 99 } }',
    },
    { dialect: 'macro', program: 'G21 G90 G94\nT4 M6\nG31 Z-10. F40.\nG0 Z5.\nM30\n' },
  ],
  *check({ analysis, profile }) {
    const probe = profile.probe.tool;
    if (probe === null) return;
    const others = analysis.touches.filter(({ tools }) => tools.some((tool) => tool !== probe));
    for (const fault of faultsByBlock(others)) {
      const tools = new Set(fault.reached.flatMap((touch) => touch.tools.filter((tool) => tool !== probe)));
      const found = [...tools].sort((a, b) => a - b);
      yield {
        message: `The spindle holds tool ${found.join(' or ')} at this touch${found.length > 1 || fault.touch.tools.includes(probe) ? ', by the path' : ''}; the probe is tool ${probe}: nothing trips, and the tool is driven into the part.`,
        place: fault.touch.place,
        related: callsOf(fault, analysis.source),
      };
    }
  },
};
