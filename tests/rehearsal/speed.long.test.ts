import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { build } from 'esbuild';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Pace } from './measurePace.ts';

const folder = mkdtempSync(path.join(tmpdir(), 'probewright-pace-'));
const program = path.join(folder, 'pace.cjs');

beforeAll(async () => {
  await build({
    entryPoints: [path.join(import.meta.dirname, 'measurePace.ts')],
    outfile: program,
    bundle: true,
    platform: 'node',
    target: 'node20',
    mainFields: ['module', 'main'],
    logLevel: 'error',
  });
});

afterAll(() => rmSync(folder, { recursive: true }));

const paceOf = (what: 'demo' | 'generated'): Pace => {
  const demo = path.join(import.meta.dirname, '../../client/walkthrough/demo');
  return JSON.parse(execFileSync(process.execPath, [program, what, demo], { encoding: 'utf8' }));
};

test('the demo bore: 50 ms for its whole matrix, once warm, and 5 s for 10,000 runs with noise', () => {
  const pace = paceOf('demo');
  expect(pace.touches).toBe(9);
  expect(pace.faults).toBeGreaterThanOrEqual(40);
  expect(pace.matrix).toBeLessThan(50);
  expect(pace.tenThousand).toBeLessThan(5000);
});

// Twice the touches of the demo.
test('a generated bore of 19 touches: 50 ms too, and 8 s', () => {
  const pace = paceOf('generated');
  expect(pace.touches).toBe(19);
  expect(pace.faults).toBeGreaterThanOrEqual(60);
  expect(pace.matrix).toBeLessThan(50);
  expect(pace.tenThousand).toBeLessThan(8000);
});
