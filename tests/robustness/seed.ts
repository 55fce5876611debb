import { readFileSync } from 'node:fs';
import { expect } from 'vitest';

// Every run of `npm test` draws the same samples, so that it passes or fails by what changed; `npm run test:long` draws others.
const seed = Number(process.env.PROBEWRIGHT_SEED ?? 1);

const { testPath } = expect.getState();
if (testPath && readFileSync(testPath, 'utf8').includes("from 'fast-check'")) {
  const { default: fc } = await import('fast-check');
  fc.configureGlobal({ seed });
}
