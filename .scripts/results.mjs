// Keeps how many tests of each kind passed, so that a run can end with one sum.
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { root } from './run.mjs';

const folder = path.join(root, '.work/results');

/** Writes the result of one kind of tests, in place of the one of an earlier run. */
export function recordResult(kind, { passed, failed }) {
  mkdirSync(folder, { recursive: true });
  writeFileSync(path.join(folder, `${kind}.json`), JSON.stringify({ passed, failed }));
}

export function forgetResults() {
  rmSync(folder, { recursive: true, force: true });
}

/** The sum over all kinds recorded since forgetResults. */
export function sumResults() {
  const sum = { passed: 0, failed: 0 };
  for (const name of readdirSync(folder)) {
    const result = JSON.parse(readFileSync(path.join(folder, name), 'utf8'));
    sum.passed += result.passed;
    sum.failed += result.failed;
  }
  return sum;
}
