// Packs dist/ and what VS Code loads beside it into a .vsix, and refuses one that is too large or holds anything else.
import { statSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import vsce from '@vscode/vsce';
import { root } from './run.mjs';

const mostBytes = 1024 * 1024;
const shipped =
  /^(package\.json|README\.md|LICENSE|dist\/(probewright\.js|languageServer\.js|parts\/[^/]+\.js|extension\.cjs|(profile|setup)\.schema\.json)|client\/icon\.png|(syntaxes|snippets|client\/walkthrough)\/.+)$/;
const needed = [
  'README.md',
  'LICENSE',
  'dist/probewright.js',
  'dist/languageServer.js',
  'dist/extension.cjs',
  'dist/profile.schema.json',
  'dist/setup.schema.json',
  'client/icon.png',
];

/** Writes dist/probewright.vsix from what is built and gives its path. Throws a sentence when it must not ship. */
export async function packageExtension() {
  const files = await vsce.listFiles({ cwd: root, packageManager: vsce.PackageManager.None });
  const strays = files.filter((file) => !shipped.test(file));
  if (strays.length > 0) throw new Error(`These files do not belong into the package: ${strays.join(', ')}`);
  const missing = needed.filter((file) => !files.includes(file));
  if (missing.length > 0) throw new Error(`The package lacks ${missing.join(', ')}: npm run build`);
  const packagePath = path.join(root, 'dist', 'probewright.vsix');
  await vsce.createVSIX({
    cwd: root,
    packagePath,
    dependencies: false,
    allowMissingRepository: true,
    rewriteRelativeLinks: false,
  });
  const { size } = statSync(packagePath);
  if (size >= mostBytes) throw new Error(`The package is ${size} bytes; it must stay under ${mostBytes}.`);
  return packagePath;
}

if (import.meta.url === pathToFileURL(process.argv[1]).href) {
  const file = await packageExtension();
  console.log(`\n${file} (${(statSync(file).size / 1024).toFixed(0)} KiB)`);
  console.log(`Install it with: code --install-extension ${path.relative(process.cwd(), file)}`);
}
