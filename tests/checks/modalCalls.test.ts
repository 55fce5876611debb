import { describe, expect, it } from 'vitest';
import type { DialectName } from '../../server/syntax/dialect.ts';
import { expectMarks } from './marked.ts';

const dialect: DialectName = 'macro';
const head = 'O1\nG21 G90 G94 G17 G40 G54\nG0 X0 Y0 Z5.\n';
/** A touch that is tested, kept and left again. */
const careful =
  'O9010\nG31 Z-10. F40.\nIF[ABS[#5063+10.]LT0.05]GOTO90\n#120=#5063\nG0 Z5.\nM99\nN90 G0 Z5.\n#3000=1(NO CONTACT)\n';

/** A program with marks, and files beside it by the names that calls give them. */
interface Form {
  readonly form: string;
  readonly program: string;
  readonly files?: Readonly<Record<string, string>>;
}

const reported: readonly Form[] = [
  {
    form: 'a touch without a retract, in the macro of a G66',
    program: `${head}G66 P9010\nX10.\nG67\nX30.\n#500=#120\nM30\nO9010\nG31 Z-10. F40. ;! no-retract-after-trip\nIF[ABS[#5063+10.]LT0.05]GOTO90\n#120=#5063\nM99\nN90 G0 Z5.\n#3000=1(NO CONTACT)\n`,
  },
  {
    form: 'the next motion under it is the one that drags',
    program: `${head}G66 P9010\nX10.\nX20.\nG67\nG0 Z5.\n#500=#120\nM30\nO9010\nG31 Z-10. F40. ;! no-retract-after-trip\nIF[ABS[#5063+10.]LT0.05]GOTO90\n#120=#5063\nM99\nN90 G0 Z5.\n#3000=1(NO CONTACT)\n`,
  },
  {
    form: 'a result that nothing tested',
    program: `${head}G66 P9010\nX10.\nG67\n#5223=#5223+#120\nM30\nO9010\nG31 Z-10. F40. ;! probe-failure-unhandled\n#120=#5063\nG0 Z5.\nM99\n`,
  },
  {
    form: 'the macro in a file of its own',
    program: `${head}G66 P9010\nX10. ;! probe-failure-unhandled\nG67\n#5223=#5223+#120\nM30\n`,
    files: { 9010: 'O9010\nG31 Z-10. F40.\n#120=#5063\nG0 Z5.\nM99\n' },
  },
  {
    form: 'the call names a program that is not there',
    program:
      'O1\nG21 G90 G94\nG66 P0003 A1. ;! undefined-subroutine\nX1.\nG67\nM96 P7 ;! undefined-subroutine\nM97\nM30\nO2\nM99\n',
    files: {},
  },
  {
    form: 'an argument that no G66 hands over',
    program: 'O1\nG21 G90 G94\nG66 P2 A1.\nX1.\nG67\nM30\nO2\nG0 Y#1\nG0 Z#26 ;! unset-parameter\nM99\n',
  },
];

const quiet: readonly Form[] = [
  {
    form: 'a careful touch behind each motion',
    program: `${head}G66 P9010\nX10.\nX20.\nG67\n#5223=#5223+#120\nM30\n${careful}`,
  },
  {
    form: 'a macro that is not here may retract, touch and test',
    program: `${head}G66 P9020\nX10.\nY5.\nG67\nG0 Z5.\n#5223=#5223+#120\nM30\n`,
  },
  {
    form: 'a macro that is not here, between touches of the program',
    program: `${head}G66 P9020\nX10.\nG67\nG0 Z5.\nG31 Z-10. F40.\nIF[ABS[#5063+10.]LT0.05]GOTO90\n#120=#5063\nG0 Z5.\n#5223=#5223+#120\nM30\nN90 G0 Z5.\n#3000=1(NO CONTACT)\n`,
  },
  {
    form: 'results of a macro that is not here',
    program: `${head}G66 P9020\nX10.\n#120=#5063\nG67\n#5223=#5223+#120\nM30\n`,
  },
  { form: 'a mode that the macro may have left', program: `${head}G66 P9020\nG91\nX10.\nG53 X0\nG67\nM30\n` },
  {
    form: 'words of blocks under G66.1',
    program: 'O1\nG21 G90 G94\nG66.1 P2\nA1. Z-5.\nA2. Z-6.\nG67\nM30\nO2\nG0 X#1 Z#26\nM99\n',
  },
  {
    form: 'a program that a signal may call',
    program: `${head}M96 P9010\nX10.\nM97\nG0 Z50.\nM30\n${careful.replace('\n', '\nG21 G90 G94\n')}`,
  },
  {
    form: 'blocks that M96 with an input jumps to',
    program: `${head}M96 P100 Q5\nG0 Z5.\nM30\nN100 G0 Z50.\nM30\n`,
  },
  { form: 'in force at the end', program: `${head}G66 P9010\nX10.\nM30\n${careful}` },
];

/** What G66 calls and when: common practice, no source. */
describe('macros called after motions', () => {
  it.each(reported)('$form is reported', ({ program, files }) => {
    expect(expectMarks(program, { dialect, files }).findings).not.toEqual([]);
  });

  it.each(quiet)('$form: nothing found', ({ program, files }) => {
    expect(expectMarks(program, { dialect, files }).findings).toEqual([]);
  });
});
