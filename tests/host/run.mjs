// Runs the tests that need a browser: pages and pictures read by axe-core, then the suite in a real VS Code twice: on
// the extension's folder, and on the packaged .vsix as users get it.
//   node tests/host/run.mjs [pages|folder|package]
import { existsSync } from 'node:fs';
import path from 'node:path';
import { packageExtension } from '../../.scripts/package.mjs';
import { recordResult } from '../../.scripts/results.mjs';
import { root, runTool } from '../../.scripts/run.mjs';
import { findBrowser } from './browser.mjs';
import { installHost } from './install.mjs';
import { runSuite } from './runSuite.mjs';

const wanted = process.argv[2];
const setUp = () => {
  try {
    return { browserPath: findBrowser(), host: wanted === 'pages' ? null : installHost() };
  } catch (error) {
    console.error(error.message);
    process.exit(1);
  }
};

const common = {
  ...setUp(),
  suite: path.join(root, 'dist/tests/index.cjs'),
  workspace: path.join(root, 'client/walkthrough/demo'),
};
if (wanted !== 'pages' && !existsSync(common.suite))
  throw new Error('dist/tests is missing: npm run build makes it.');

const runs = {
  folder: async () => ({ development: root }),
  package: async () => ({ packaged: await packageExtension() }),
};
let failures = wanted && wanted !== 'pages' ? 0 : readPages();
for (const [name, extension] of Object.entries(runs)) {
  if (wanted && wanted !== name) continue;
  console.log(`\nIn a real VS Code, with the extension from its ${name}:`);
  const logs = path.join(root, '.work/host', name);
  const result = await runSuite({ ...common, ...(await extension()), logs });
  recordResult(`host-${name}`, result);
  console.log(`${name}: ${result.passed} passed, ${result.failed} failed`);
  failures += result.failed;
}
process.exit(failures === 0 ? 0 : 1);

function readPages() {
  const env = { PROBEWRIGHT_TEST_KIND: 'host-pages', CHROMIUM: common.browserPath };
  return runTool('vitest', 'vitest', ['run', '--mode', 'pages'], env);
}
