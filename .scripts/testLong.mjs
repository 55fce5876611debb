// `npm run test:long`: the tests that take minutes, the property tests on further samples, and the limits of the bench.
//   npm run test:long -- SEED…     with these seeds; else the clock's, or in CI always the same
import { install } from './install.mjs';
import { recordResult } from './results.mjs';
import { runNode, runTool } from './run.mjs';

const rounds = 4;

const given = process.argv.slice(2).map(Number);
const first = process.env.CI ? 100 : Date.now() % 2 ** 31;
const seeds = given.length > 0 ? given : Array.from({ length: rounds }, (_, i) => first + i);

install();
if (runNode('build.mjs') !== 0) process.exit(1);
const failed = [];
if (vitest('long') !== 0) failed.push('long');
for (const seed of seeds) {
  console.log(`\nSamples of seed ${seed}:`);
  if (vitest('samples', seed) !== 0) failed.push(`samples of seed ${seed}`);
}
const bench = runNode('tests/bench/bench.mjs');
recordResult('bench', bench === 0 ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 });
if (bench !== 0) failed.push('bench');

if (failed.length > 0) console.error(`\nFailed: ${failed.join(', ')}`);
process.exit(failed.length === 0 ? 0 : 1);

function vitest(mode, seed) {
  const kind = seed === undefined ? mode : `${mode}-${seed}`;
  const env = { PROBEWRIGHT_TEST_KIND: kind, ...(seed !== undefined && { PROBEWRIGHT_SEED: String(seed) }) };
  return runTool('vitest', 'vitest', ['run', '--mode', mode], env);
}
