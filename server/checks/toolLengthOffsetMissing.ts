import type { Datum, Touch } from '../analysis/model.ts';
import type { Rule } from './rule.ts';
import { callsOf, faultsByBlock } from './touchFaults.ts';

export const toolLengthOffsetMissing: Rule = {
  id: 'tool-length-offset-missing',
  severity: 'warning',
  title: 'a height measured without the probe’s length, or with another tool’s',
  what: 'A touch in Z goes into a datum, and on some path G49 was programmed before it, or the length in force (G43) is that of another tool than the one in the spindle. Where the program says nothing about G43, nothing is said.',
  why: 'The datum in Z is wrong by the length of the probe, or by the difference of the two tools: the next tool stops above the part or goes into the table.',
  instead: 'G43 with the probe’s number after the tool change and before the touch.',
  source:
    'common practice, no source; that G43 and G49 last until another of their group: NISTIR 6556, 3.5.10',
  fails: [
    {
      dialect: 'rs274ngc',
      program: 'G21 G90 G94 G49\nG38.2 Z-10 F40\n#<top>=#5063\nG0 Z5\nG10 L2 P1 Z#<top>\nM2\n',
    },
    {
      dialect: 'macro',
      program:
        'G21 G90 G94\nT4 M6\nG43 H4 Z50.\nT99 M6\nG31 Z-10. F40.\n#101=#5063\nG0 Z5.\nIF[#101LT-9.9]GOTO9\nG10 L2 P1 Z#101\nN9 M30\n',
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program:
        'G21 G90 G94 G49\nT99 M6\nG43 H99\nG38.2 Z-10 F40\n#<top>=#5063\nG0 Z5\nG10 L2 P1 Z#<top>\nM2\n',
    },
    {
      dialect: 'macro',
      program:
        'G21 G90 G94\nG31 Z-10. F40.\n#101=#5063\nG0 Z5.\nIF[#101LT-9.9]GOTO9\nG10 L2 P1 Z#101\nN9 M30\n',
    },
  ],
  *check({ analysis }) {
    const wrong = new Map<Touch, Datum>();
    for (const datum of analysis.datums)
      for (const { touch, axis } of datum.target.endsWith('.z') ? (datum.terms ?? []) : [])
        if (axis === 'z' && touch.file === null && lengthFault(touch) !== null && !wrong.has(touch))
          wrong.set(touch, datum);
    for (const fault of faultsByBlock(wrong.keys())) {
      const datum = wrong.get(fault.touch);
      yield {
        message: `${lengthFault(fault.touch)}: ${datum?.target ?? 'the datum'} that is set from this touch is wrong by a tool’s length.`,
        place: fault.touch.place,
        related: [
          ...(datum ? [{ message: 'the datum that is set from it', place: datum.place }] : []),
          ...callsOf(fault, analysis.source),
        ],
      };
    }
  },
};

/** null: nothing wrong that the program shows. */
function lengthFault({ modes, tools, lengthsOf }: Touch): string | null {
  if (modes.toolLength.includes('G49')) return 'G49 is in force here: no tool length is applied';
  const other = tools.length > 0 ? lengthsOf.find((tool) => !tools.includes(tool)) : undefined;
  return other === undefined
    ? null
    : `The length in force here is that of tool ${other}, and the spindle holds tool ${tools.join(' or ')}`;
}
