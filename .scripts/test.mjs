// `npm test`: installs, builds, and runs every check of the project but the long tests and the bench.
import { spawnSync } from 'node:child_process';
import { install } from './install.mjs';
import { forgetResults, sumResults } from './results.mjs';
import { root, runNode, runTool } from './run.mjs';

const steps = {
  build: () => runNode('build.mjs'),
  package: () => runNode('.scripts/package.mjs'),
  types: () => runTool('typescript', 'tsc', ['-p', '.']),
  lint: () => runTool('@biomejs/biome', 'biome', ['check', '--error-on-warnings', '.']),
  unit: () => runTool('vitest', 'vitest', ['run'], { PROBEWRIGHT_TEST_KIND: 'unit' }),
  host: () => runNode('tests/host/run.mjs'),
};

const before = changedFiles();
install();
forgetResults();
const failed = [];
for (const [name, step] of Object.entries(steps)) {
  const start = performance.now();
  console.log(`\n— ${name}`);
  if (step() !== 0) failed.push(name);
  console.log(`— ${name}: ${((performance.now() - start) / 1000).toFixed(1)} s`);
  if (name === 'build' && failed.length > 0) break;
}

const left = changedFiles().filter((file) => !before.includes(file));
if (left.length > 0) {
  console.error(`\nThe run left changes behind in the work tree:\n${left.join('\n')}`);
  failed.push('clean tree');
}
const sum = sumResults();
if (failed.length > 0) {
  console.error(`\nFailed: ${failed.join(', ')}`);
  sum.failed ||= failed.length;
}
console.log(`\n${sum.passed} passed, ${sum.failed} failed`);
process.exit(failed.length > 0 || sum.passed === 0 ? 1 : 0);

/** What git calls changed or new; nothing where this is no git checkout. */
function changedFiles() {
  const status = spawnSync('git', ['status', '--porcelain', '--untracked-files=all'], {
    cwd: root,
    encoding: 'utf8',
  });
  return status.status === 0 ? status.stdout.split('\n').filter(Boolean) : [];
}
