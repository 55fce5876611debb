import { createRequire } from 'node:module';
import { Ajv } from 'ajv';
import { expect, test } from 'vitest';
import type { Rule } from '../../server/checks/rule.ts';
import { checkSarif } from '../../server/report/checkSarif.ts';
import { cleanProgram, sampleProgram, written } from './sampleProgram.ts';

/**
 * The published JSON schema of SARIF 2.1.0 (OASIS Standard), as a package ships it. It is a draft-04 schema of which
 * only `id` and `$schema` differ from what ajv reads.
 */
const published = createRequire(import.meta.url)(
  '@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json',
) as Record<string, unknown>;
const { id: _id, $schema: _schema, ...schema } = published;
const valid = new Ajv({ strict: false, validateFormats: false, unicodeRegExp: false }).compile(schema);

const rule: Rule = {
  id: 'no-retract-after-trip',
  severity: 'error',
  title: 'After a touch the tip goes further in',
  what: 'What it reports.',
  why: 'What happens.',
  instead: 'What to write.',
  fails: [],
  passes: [],
  source: 'common practice, no source',
  check: () => [],
};

const log = (programs = [sampleProgram, cleanProgram]) =>
  JSON.parse(written(checkSarif({ version: '1.2.3', profile: null }, [rule]), programs));

test('the log follows the published schema', () => {
  expect(valid(log()), JSON.stringify(valid.errors)).toBe(true);
  expect(valid(log([])), JSON.stringify(valid.errors)).toBe(true);
});

test('the schema refuses what is no log', () => {
  expect(valid({ version: '2.1.0', runs: [{ tool: {} }] })).toBe(false);
});

test('a finding keeps its rule, level, region and fix', () => {
  const [run] = log().runs;
  expect(run.columnKind).toBe('utf16CodeUnits');
  expect(run.results.map((result: { level: string }) => result.level)).toEqual(['error', 'warning', 'note']);
  expect(run.results[0]).toMatchObject({
    ruleId: 'no-retract-after-trip',
    ruleIndex: 0,
    locations: [
      {
        physicalLocation: {
          artifactLocation: { uri: 'jobs/left%2C%20edge%3A1.ngc' },
          region: { startLine: 2, startColumn: 1, endLine: 2, endColumn: 6 },
        },
      },
    ],
    relatedLocations: [{ id: 0, message: { text: 'the next motion' } }],
    fixes: [{ artifactChanges: [{ replacements: [{ insertedContent: { text: 'G1 X-18\n' } }] }] }],
  });
  expect(run.tool.driver.rules[0].help.text).toContain('What to write.');
});

test('paths become URI references', () => {
  const uriOf = (path: string) =>
    log([{ ...sampleProgram, path }]).runs[0].results[0].locations[0].physicalLocation.artifactLocation.uri;
  expect(uriOf('../a b.ngc')).toBe('../a%20b.ngc');
  expect(uriOf('/jobs/a.ngc')).toBe('file:///jobs/a.ngc');
  expect(uriOf('C:/jobs/a#1.ngc')).toBe('file:///C:/jobs/a%231.ngc');
});
