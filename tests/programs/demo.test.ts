import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { analyse } from '../../server/analysis/analysis.ts';
import { check } from '../../server/checks/check.ts';
import { ruleIds } from '../../server/checks/registry.ts';
import type { Finding } from '../../server/checks/rule.ts';
import { readProfile } from '../../server/profile/profile.ts';
import { detectDialect } from '../../server/syntax/detectDialect.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { Source } from '../../server/syntax/source.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';
import expected from './demo.json' with { type: 'json' };

const folder = path.resolve(import.meta.dirname, '../../client/walkthrough/demo');
const read = (name: string) => readFileSync(path.join(folder, name), 'utf8');
const { profile } = readProfile(read('probewright.json'), { path: 'probewright.json', ruleIds });

function findingsOf(name: string): readonly Finding[] {
  if (!profile) throw new Error('The demo profile has a fault.');
  const text = SourceText.from(read(name));
  const source = Source.from(text, dialects[detectDialect(text).dialect]);
  return check(source, analyse(source, profile), profile).findings;
}

const programs = Object.entries<readonly { rule: string; line: number }[]>(expected);

describe('the demo programs', () => {
  test.each(programs)('%s', (name, wanted) => {
    const found = findingsOf(name).map(({ rule, place }) => `${place.line + 1} ${rule}`);
    expect(found.sort()).toEqual(wanted.map(({ rule, line }) => `${line} ${rule}`).sort());
  });

  test('half of them are right, and every dialect is there', () => {
    const quiet = programs.filter(([, wanted]) => wanted.length === 0);
    expect(quiet.length).toBe(programs.length / 2);
    const found = programs.map(([name]) => detectDialect(read(name)).dialect);
    expect(new Set(found)).toEqual(new Set(['rs274ngc', 'macro']));
  });
});
