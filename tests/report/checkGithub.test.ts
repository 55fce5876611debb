import { expect, test } from 'vitest';
import { checkGithub } from '../../server/report/checkGithub.ts';
import { written } from './sampleProgram.ts';

test('an annotation a finding, with everything escaped that would end it', () => {
  expect(written(checkGithub())).toBe(
    [
      '::error file=jobs/left%2C edge%3A1.ngc,line=2,col=1,endLine=2,endColumn=6,title=probewright no-retract-after-trip::The next motion goes 5 mm further in: 100 %25 of it, after the trip.',
      '::warning file=jobs/left%2C edge%3A1.ngc,line=4,col=2,endLine=4,endColumn=7,title=probewright mode-assumed::Nothing before says <G94> & "per minute".',
      '::notice file=jobs/left%2C edge%3A1.ngc,line=5,col=1,endLine=5,endColumn=3,title=probewright unreachable-block::No path gets here.',
      '',
    ].join('\n'),
  );
});
