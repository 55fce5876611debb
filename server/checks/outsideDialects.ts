import { wholeLine } from './blockFacts.ts';
import { foreignLanguage } from './foreignLanguage.ts';
import type { Rule } from './rule.ts';

export const outsideDialects: Rule = {
  id: 'outside-dialects',
  severity: 'info',
  title: 'the file is in another language',
  what: 'The file is in a language that Probewright does not read: settings and macros of printer firmware, the language of another family of controls, or no program at all. It is said once, and nothing else is reported for the file.',
  why: 'The same letters mean other things there: a G31 can be a setting and no motion. Findings about it would be wrong.',
  instead:
    'Nothing, where the file is what it should be. Where it is RS-274 after all, name its dialect in a comment: (probewright: dialect rs274ngc) or (probewright: dialect macro).',
  source: 'common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      program:
        'M558 P5 H5 F120\nG31 P500 X0 Y0 Z1.2\nM104 S200\nG1 E-2 F1800\nif {move.axes[0].homed}\n  G30\n',
    },
    {
      dialect: 'macro',
      program: 'DEF REAL _DEPTH=5\nR1=10\nMEAS=1 G1 Z-10 F100\nIF R1>5 GOTOF LAB1\nMSG("done")\n',
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program: 'G21 G90 G94\n#<depth> = 5\no1 if [#<depth> GT 3]\n  (MSG, deep)\no1 endif\nM2\n',
    },
    { dialect: 'macro', program: 'G21 G90 G94\nM104\nM140\nIF[#1GT5]GOTO1\nN1 M30\n' },
  ],
  *check({ analysis: { source }, profile }) {
    const reason = foreignLanguage(source, profile);
    if (reason === null) return;
    const line = Number(/\(line (\d+)\)$/.exec(reason)?.[1] ?? 1) - 1;
    yield {
      message: `This file ${reason}: Probewright does not read its language, and nothing else is checked in it.`,
      place: wholeLine(source, line),
    };
  },
};
