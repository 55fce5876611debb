import { expect, test } from 'vitest';
import { checkJson } from '../../server/report/checkJson.ts';
import { written } from './sampleProgram.ts';

const header = { version: '1.2.3', profile: 'probewright.json' };

test('the contract of check, key by key: 1-based, half-open', () => {
  expect(JSON.parse(written(checkJson(header)))).toEqual({
    version: '1.2.3',
    profile: 'probewright.json',
    files: [
      {
        path: 'jobs/left, edge:1.ngc',
        dialect: 'rs274ngc',
        findings: [
          {
            rule: 'no-retract-after-trip',
            severity: 'error',
            message: 'The next motion goes 5 mm further in: 100 % of it, after the trip.',
            range: { start: { line: 2, column: 1 }, end: { line: 2, column: 6 } },
            related: [
              {
                message: 'the next motion',
                range: { start: { line: 3, column: 1 }, end: { line: 3, column: 8 } },
              },
            ],
            fixes: [
              {
                title: 'Insert a retract',
                edits: [
                  {
                    range: { start: { line: 3, column: 1 }, end: { line: 3, column: 1 } },
                    text: 'G1 X-18\n',
                  },
                ],
              },
            ],
          },
          {
            rule: 'mode-assumed',
            severity: 'warning',
            message: 'Nothing before says <G94> & "per minute".',
            range: { start: { line: 4, column: 2 }, end: { line: 4, column: 7 } },
            related: [],
            fixes: [
              {
                title: 'Say G94',
                edits: [
                  { range: { start: { line: 1, column: 8 }, end: { line: 1, column: 8 } }, text: ' G94' },
                ],
              },
            ],
          },
          {
            rule: 'unreachable-block',
            severity: 'info',
            message: 'No path gets here.',
            range: { start: { line: 5, column: 1 }, end: { line: 5, column: 3 } },
            related: [],
            fixes: [],
          },
        ],
      },
      { path: 'jobs/bore.ngc', dialect: 'rs274ngc', findings: [] },
    ],
    summary: { error: 1, warning: 1, info: 1, suppressed: 2 },
  });
});

test('no program at all is still JSON, and no profile is null', () => {
  const empty = { error: 0, warning: 0, info: 0, suppressed: 0, known: 0, programs: 0 };
  expect(JSON.parse(written(checkJson({ version: '1.2.3', profile: null }), [], empty))).toEqual({
    version: '1.2.3',
    profile: null,
    files: [],
    summary: { error: 0, warning: 0, info: 0, suppressed: 0 },
  });
});
