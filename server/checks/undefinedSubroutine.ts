import { callSites, lookForCalls } from '../analysis/callSites.ts';
import type { Rule } from './rule.ts';

export const undefinedSubroutine: Rule = {
  id: 'undefined-subroutine',
  severity: 'warning',
  title: 'a call of a subroutine that is not there',
  what: 'The program calls a subroutine that neither stands in the file nor in a file where the dialect looks for it: one of that name beside the program. A control of the macro family keeps programs in its memory, so there it is information, and nothing is said of numbers from 8000 on, which are the builder’s.',
  why: 'The control stops with an alarm at the call, perhaps with the probe beside the part, or finds another subroutine of that name in its own memory.',
  instead:
    'Correct the name, or put the file beside the program. Where the control keeps it in its own memory, allow the call here with a comment that says so.',
  source: 'common practice, no source',
  fails: [
    { dialect: 'rs274ngc', program: 'G21 G90 G94\no<up> call [5]\nM2\n', files: {} },
    {
      dialect: 'rs274ngc',
      program: 'o<up> sub\n  G0 Z5\no<up> endsub\nG21 G90 G94\no<upp> call\nM2\n',
      files: {},
    },
  ],
  passes: [
    { dialect: 'rs274ngc', program: 'o<up> sub\n  G0 Z5\no<up> endsub\nG21 G90 G94\no<up> call\nM2\n' },
    {
      dialect: 'rs274ngc',
      program: 'G21 G90 G94\no<up> call\nM2\n',
      files: { up: 'o<up> sub\n  G0 Z5\no<up> endsub\n' },
    },
    { dialect: 'macro', program: 'O1\nG21 G90 G94\nM98 P2\nM30\nO2\nG0 Z5.\nM99\n' },
  ],
  *check({ analysis: { source, procedures, called } }) {
    const isMacro = source.dialect.name === 'macro';
    yield* lookForCalls(source);
    for (const { name, written, place } of callSites(source)) {
      if (procedures.byName.has(name) || (isMacro && Number(name) >= firstOfBuilder)) continue;
      const lead = called.lead('program', name);
      if (lead === null || !('missing' in lead) || lead.missing === undefined) continue;
      yield {
        message: `There is no subroutine ${written} in this file, and no file ${lead.missing} where it would be looked for: the control stops with an alarm at this call${isMacro ? ', unless its memory holds it' : ''}.`,
        place,
        ...(isMacro ? { severity: 'info' as const } : {}),
      };
    }
  },
};

/** Numbers of protected programs (common practice, no source). */
const firstOfBuilder = 8000;
