// Starts other programs the way every script here does: output goes straight to the terminal, a failure is an exit code.
import { spawnSync } from 'node:child_process';
import { createRequire } from 'node:module';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('..', import.meta.url));

/** Runs a Node script of the project and returns its exit code. */
export function runNode(script, args = [], env = {}) {
  return start(process.execPath, [path.join(root, script), ...args], env);
}

/** Runs the program that an installed package names in its `bin`, without a shell, and returns its exit code. */
export function runTool(packageName, tool, args = [], env = {}) {
  const manifest = createRequire(path.join(root, 'package.json')).resolve(`${packageName}/package.json`);
  const { bin } = createRequire(manifest)(manifest);
  const script = path.join(path.dirname(manifest), typeof bin === 'string' ? bin : bin[tool]);
  return start(process.execPath, [script, ...args], env);
}

/** Runs npm: the one that started us, else the one on the path. */
export function runNpm(args) {
  const npm = process.env.npm_execpath;
  if (npm?.endsWith('.js')) return start(process.execPath, [npm, ...args]);
  return start('npm', args, {}, process.platform === 'win32');
}

function start(command, args, env = {}, shell = false) {
  const result = spawnSync(command, args, {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, ...env },
    shell,
  });
  if (result.error) {
    console.error(`${command} did not start: ${result.error.message}`);
    return 1;
  }
  return result.status ?? 1;
}
