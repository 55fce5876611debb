import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { defineConfig } from 'vitest/config';

const tests = readdirSync('tests', { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.test.ts'))
  .map((name) => path.posix.join('tests', ...name.split(path.sep)));
const drawsSamples = (file: string) => readFileSync(file, 'utf8').includes("from 'fast-check'");

const inCode = (file: string) => file.startsWith('tests/host/');
const inBrowser = (file: string) => file.startsWith('tests/host/pages/');
const takesMinutes = (file: string) => file.endsWith('.long.test.ts');

/** Which tests a `--mode` runs; without one, those of `npm test`. `npm run test:long` runs the other two. */
const chosen: Readonly<Record<string, (file: string) => boolean>> = {
  test: (file) => !inCode(file) && !takesMinutes(file),
  pages: inBrowser,
  long: takesMinutes,
  samples: (file) => !inCode(file) && !takesMinutes(file) && drawsSamples(file),
};

export default defineConfig(({ mode }) => ({
  test: {
    include: tests.filter(chosen[mode] ?? (() => false)),
    setupFiles: ['tests/robustness/seed.ts'],
    reporters: ['default', './tests/house/skippedFails.mjs'],
    testTimeout: mode === 'test' ? 20_000 : 600_000,
  },
}));
