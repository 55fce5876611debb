import type { Rule } from './rule.ts';

/** Found by `suppress.ts`, which alone knows what a suppression silenced. */
export const unusedSuppression: Rule = {
  id: 'unused-suppression',
  severity: 'info',
  title: 'a suppression that silences nothing',
  what: 'A comment (probewright: allow RULE - REASON) whose rule has no finding in its block (alone in a block: in the next one), or that names no rule. Also a comment that is meant for Probewright and misspelt, so that nobody obeys it: (probewright: alow RULE - REASON). Rules that the profile turns off are not counted.',
  why: 'The fault it was written for is gone, or the comment stands at the wrong block; if it stays it hides the next one.',
  instead: 'Remove the comment, put it at the block it is meant for, or correct its spelling.',
  source: 'common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      program:
        'G21 G90 G94\nG0 Z5 (probewright: allow probe-with-spindle-running - orients by turning)\nM2\n',
    },
    { dialect: 'rs274ngc', program: '(probewright: dialect rs274-ngc)\nG21 G90 G94\nM2\n' },
    { dialect: 'macro', program: 'G21 G90 G94\n(probewright: allow spindle - old name)\nG0 Z5.\nM30\n' },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program:
        'G21 G90 G94\nG0 X5 X5 (probewright: allow repeated-word - shows what the control does about it)\nM2\n',
    },
  ],
};
