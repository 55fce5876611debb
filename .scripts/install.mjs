// Installs what package-lock.json pins, and does nothing while that file is what was installed last.
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { root, runNpm } from './run.mjs';

const stamp = path.join(root, 'node_modules', '.installed-lock');

/** Exits with a sentence when this Node is too old or the install fails. */
export function install() {
  requireNode();
  const lock = createHash('sha256')
    .update(readFileSync(path.join(root, 'package-lock.json')))
    .digest('hex');
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === lock) return;
  console.log('Installing the packages of package-lock.json …');
  if (runNpm(['ci', '--no-audit', '--no-fund', '--loglevel=error']) !== 0) {
    console.error('npm ci failed: see its message above. It needs an npm registry that it can reach.');
    process.exit(1);
  }
  writeFileSync(stamp, lock);
}

function requireNode() {
  const { engines } = JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8'));
  const wanted = engines.node.replace(/^>=/, '').split('.').map(Number);
  const found = process.versions.node.split('.').map(Number);
  const difference = wanted.map((part, i) => found[i] - part).find((part) => part !== 0) ?? 0;
  if (difference >= 0) return;
  console.error(`Node ${engines.node} is needed; this is ${process.version}.`);
  process.exit(1);
}

if (import.meta.url === pathToFileURL(process.argv[1]).href) install();
