// `npm run test:desktop`: the suite in a desktop VS Code, the one that VSCODE names or one that is downloaded.
import path from 'node:path';
import { runTests } from '@vscode/test-electron';
import { root } from '../../.scripts/run.mjs';

try {
  await runTests({
    ...(process.env.VSCODE && { vscodeExecutablePath: process.env.VSCODE }),
    cachePath: path.join(root, '.vscode-test'),
    extensionDevelopmentPath: root,
    extensionTestsPath: path.join(root, 'dist/tests/index.cjs'),
    launchArgs: [
      path.join(root, 'client/walkthrough/demo'),
      '--disable-extensions',
      '--disable-workspace-trust',
    ],
  });
} catch (error) {
  console.error(`The tests in a desktop VS Code did not pass: ${error.message}`);
  console.error('Where none can be downloaded, name one in VSCODE; npm run test:host needs no desktop.');
  process.exit(1);
}
