// `npm run test:long`: the tests that take minutes, and the limits on time and memory.
import { install } from './install.mjs';
import { recordResult } from './results.mjs';
import { runNode, runTool } from './run.mjs';

install();
if (runNode('build.mjs') !== 0) process.exit(1);
const tests = runTool('vitest', 'vitest', ['run', '--mode', 'long'], { PROBEWRIGHT_TEST_KIND: 'long' });
const bench = runNode('tests/bench/bench.mjs');
recordResult('bench', bench === 0 ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 });
process.exit(tests === 0 && bench === 0 ? 0 : 1);
