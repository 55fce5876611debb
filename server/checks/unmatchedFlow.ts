import type { FlowFault } from '../analysis/model.ts';
import type { Rule } from './rule.ts';

export const unmatchedFlow: Rule = {
  id: 'unmatched-flow',
  severity: 'error',
  title: 'program flow whose halves do not fit together',
  what: 'An if, while, sub, repeat or DO without its end, an end without its start, a DO within one of its own number, a GOTO to an N number that is not there, an endsub inside an if or a loop, a break or continue outside any loop.',
  why: 'The control stops with an alarm when it gets there, or runs on into blocks that were not meant: with a probe near the part that is a collision.',
  instead:
    'Give every start its end with the same label, in the same subroutine; leave a subroutine early with return.',
  source: 'common practice, no source',
  fails: [
    { dialect: 'rs274ngc', program: 'G21 G90 G94\no1 if [#1 GT 2]\n  G0 X5\nM2\n' },
    { dialect: 'macro', program: 'G21 G90 G94\nIF[#1GT2]GOTO50\nG0 X5.\nM30\n' },
    {
      dialect: 'rs274ngc',
      program: 'G21 G90 G94\no<edge> sub\n  o1 if [#1 GT 2]\n    o<edge> endsub\n  o1 endif\nM2\n',
    },
  ],
  passes: [
    { dialect: 'rs274ngc', program: 'G21 G90 G94\no1 while [#1 LT 3]\n  #1=[#1 + 1]\no1 endwhile\nM2\n' },
    { dialect: 'macro', program: 'G21 G90 G94\nWHILE[#1LT3]DO1\n#1=#1+1\nIF[#1EQ2]GOTO1\nEND1\nN01 M30\n' },
  ],
  *check({ analysis }) {
    for (const fault of analysis.flowFaults)
      yield {
        message: wordings[fault.code](fault.detail),
        place: fault.place,
        related: fault.other ? [{ message: 'the other half', place: fault.other }] : [],
      };
  },
};

const wordings: Readonly<Record<FlowFault['code'], (detail: string) => string>> = {
  'missing-end': (detail) =>
    `This ${detail} has no end: the control stops with an alarm, or runs on to the end of the file.`,
  'missing-start': (detail) => `This ${detail} has no start: the control stops with an alarm.`,
  'missing-label': (detail) =>
    `There is no block N${detail} to jump to: the control stops with an alarm when it gets here.`,
  'endsub-inside': (detail) =>
    `This endsub stands inside an open ${detail}, where the subroutine can't end. To leave early, write return.`,
  'wrong-keyword': (detail) => `${wrongPair(detail)}: the control stops with an alarm.`,
  'same-number': (detail) =>
    `This ${detail} stands inside another ${detail}: the control stops with an alarm, or takes the first END for both. Give each its own number.`,
  'outside-loop': (detail) =>
    `This ${detail} stands outside any loop of its label: there is nothing to leave.`,
};

/** `endif while`: the end, and what it would end. */
function wrongPair(detail: string): string {
  const [end, start] = detail.split(' ');
  return end?.startsWith('END')
    ? `${end} can't end ${start}: their numbers differ`
    : `${end} can't belong to the ${start} of this label`;
}
