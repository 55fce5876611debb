// Whole processes of Node, with what they took.
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { root } from '../../.scripts/run.mjs';

export const command = path.join(root, 'dist/probewright.js');
export const reportUse = pathToFileURL(path.join(root, 'tests/bench/reportUse.mjs')).href;

/**
 * Runs Node with `args` to its end. Gives `seconds` from start to end, `processor` seconds of all its threads, and
 * `mebibytes` at its peak. `folder` is for files in passing; `expected` the exit codes that are no failure.
 */
export function timed(folder, args, expected) {
  const useFile = path.join(folder, 'use.json');
  const start = performance.now();
  const run = spawnSync(process.execPath, ['--import', reportUse, ...args], {
    env: { ...process.env, PROCESS_USE_FILE: useFile },
    encoding: 'utf8',
    maxBuffer: 2 ** 28,
  });
  const seconds = (performance.now() - start) / 1000;
  if (!expected.includes(run.status))
    throw new Error(`${args.join(' ')} ended with ${run.status}: ${run.stderr}`);
  const { processor, peak } = JSON.parse(readFileSync(useFile, 'utf8'));
  return { seconds, processor, mebibytes: peak / 1024, output: run.stdout };
}

export function median(values) {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)];
}
