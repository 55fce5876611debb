// `npm run bench`: checks a program of a million blocks, whole processes in turn with a bare word scan of the same text.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { root } from '../../.scripts/run.mjs';
import { writeProgram } from './millionBlocks.mjs';

const blocks = 1_000_000;
const rounds = 5;
const most = { ratio: 2, mebibytes: 400 };

const folder = mkdtempSync(path.join(tmpdir(), 'probewright-bench-'));
process.once('exit', () => rmSync(folder, { recursive: true, force: true }));
const file = path.join(folder, 'million.ngc');
const faultLine = writeProgram(file, { blocks, seed: 20 });
const mebibytes = statSync(file).size / 2 ** 20;
console.log(`${blocks} blocks, ${mebibytes.toFixed(1)} MiB; medians of ${rounds} runs of whole processes`);

const command = path.join(root, 'dist/probewright.js');
mustFindTheFault();
const checks = [];
const scans = [];
for (let round = 0; round < rounds; round++) {
  scans.push(measure([path.join(root, 'tests/bench/wordScan.mjs'), file], [0]));
  checks.push(measure([command, 'check', file], [1]));
}

const seconds = (runs) => median(runs.map((run) => run.seconds));
const peak = Math.max(...checks.map((run) => run.mebibytes));
const ratio = seconds(checks) / seconds(scans);
console.log(`word scan  ${seconds(scans).toFixed(2)} s`);
console.log(`check      ${seconds(checks).toFixed(2)} s`);
console.log(`ratio      ${ratio.toFixed(2)} (at most ${most.ratio})`);
console.log(
  `peak       ${peak.toFixed(0)} MiB (at most ${most.mebibytes}; word scan ${scans[0].mebibytes.toFixed(0)})`,
);
const kept = ratio <= most.ratio && peak <= most.mebibytes;
if (!kept) console.error('A limit is not kept.');
process.exit(kept ? 0 : 1);

/** A check that stopped early would look fast: the one fault stands at the end of the program. */
function mustFindTheFault() {
  const run = spawnSync(process.execPath, [command, 'check', '--format', 'json', file], {
    encoding: 'utf8',
    maxBuffer: 2 ** 28,
  });
  const found = run.status === 1 ? JSON.parse(run.stdout).files[0].findings : [];
  const lines = found
    .filter(({ rule }) => rule === 'no-retract-after-trip')
    .map(({ range }) => range.start.line);
  if (lines.length === 1 && lines[0] === faultLine) return;
  console.error(
    `The fault of line ${faultLine} was not found alone (exit ${run.status}, lines ${lines.slice(0, 9)}).`,
  );
  console.error(run.stderr);
  process.exit(1);
}

function measure(args, expected) {
  const peakFile = path.join(folder, 'peak');
  const preload = pathToFileURL(path.join(root, 'tests/bench/reportPeak.mjs')).href;
  const start = performance.now();
  const run = spawnSync(process.execPath, ['--import', preload, ...args], {
    env: { ...process.env, PEAK_MEMORY_FILE: peakFile },
    encoding: 'utf8',
    maxBuffer: 2 ** 28,
  });
  const took = (performance.now() - start) / 1000;
  if (!expected.includes(run.status))
    throw new Error(`${args.join(' ')} ended with ${run.status}: ${run.stderr}`);
  return { seconds: took, mebibytes: Number(readFileSync(peakFile, 'utf8')) / 1024 };
}

function median(values) {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)];
}
