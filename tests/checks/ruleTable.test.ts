import { execFileSync } from 'node:child_process';
import path from 'node:path';
import { expect, test } from 'vitest';
import { root } from '../house/sources.ts';

test('the table of rules in DEVELOPERS.md is what the tests have', () => {
  const script = path.join(root, '.scripts/ruleTable.mjs');
  expect(() => execFileSync(process.execPath, [script, '--check'], { stdio: 'pipe' })).not.toThrow();
});
