import { suppressions } from '../syntax/suppressions.ts';
import type { Rule } from './rule.ts';

export const suppressionWithoutReason: Rule = {
  id: 'suppression-without-reason',
  severity: 'warning',
  title: 'a suppression comment that gives no reason',
  what: 'A comment (probewright: allow RULE - REASON) with no reason in it. It silences nothing until it has one.',
  why: 'Who reads the program next year can’t tell a decision from an oversight.',
  instead: 'Say why it is right here: (probewright: allow single-fast-touch - rough location only).',
  source: 'common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      program: 'G21 G90 G94\n(probewright: allow probe-with-spindle-running)\nG38.2 Z-10 F40\nG0 Z5\nM2\n',
    },
  ],
  passes: [
    {
      dialect: 'macro',
      program:
        'G21 G90 G94\nM3 S50\n(probewright: allow probe-with-spindle-running - orients the stylus by slow turning)\nG31 Z-10. F40.\nG0 Z5.\nM30\n',
    },
  ],
  *check({ analysis }) {
    for (const { rule, reason, place } of suppressions(analysis.source))
      if (reason === null)
        yield {
          message: `This comment allows ${rule} and doesn’t say why: write the reason behind a dash. Until then it silences nothing.`,
          place,
        };
  },
};
