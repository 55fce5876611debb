// Checks of a program of a million blocks, whole processes in turn with a bare word scan of the same text.
import path from 'node:path';
import { root } from '../../../.scripts/run.mjs';
import { writeProgram } from '../millionBlocks.mjs';
import { command, median, timed } from '../processes.mjs';

const blocks = 1_000_000;
const rounds = 5;
const wordScan = path.join(root, 'tests/bench/wordScan.mjs');

const kinds = [
  { name: 'in ASCII and G90', most: 1, goal: 0.5 },
  { name: 'with one character outside Latin-1', wide: true, most: 1.3, goal: 0.7 },
  { name: 'in G91', incremental: true, most: 1.3, goal: 0.7 },
];

export function batchCheck(folder) {
  const measured = kinds.map((kind) => measure(folder, kind));
  const peak = Math.max(...measured.map((each) => each.peak));
  return [
    ...measured.map((each) => each.row),
    { figure: `peak memory of these checks`, value: peak, unit: 'MiB', most: 250, goal: 160 },
  ];
}

function measure(folder, { name, most, goal, ...options }) {
  const file = path.join(folder, 'million.ngc');
  const faultLine = writeProgram(file, { blocks, seed: 20, ...options });
  const check = [command, 'check', '--format', 'json', file];
  mustFindTheFault(timed(folder, check, [1]).output, faultLine);
  const scans = [];
  const checks = [];
  for (let round = 0; round < rounds; round++) {
    scans.push(timed(folder, [wordScan, file], [0]));
    checks.push(timed(folder, check, [1]));
  }
  const of = (runs, what) => median(runs.map((run) => run[what]));
  const seconds = (runs) =>
    `${of(runs, 'seconds').toFixed(2)} s (processor ${of(runs, 'processor').toFixed(2)})`;
  console.error(`  ${name}: check ${seconds(checks)}, word scan ${seconds(scans)}`);
  const value = of(checks, 'seconds') / of(scans, 'seconds');
  const figure = `check of ${blocks} blocks over a bare word scan, ${name}`;
  return {
    row: { figure, value, unit: '', most, goal },
    peak: Math.max(...checks.map((run) => run.mebibytes)),
  };
}

/** A check that stopped early would look fast: the one fault stands at the end of the program. */
function mustFindTheFault(output, faultLine) {
  const found = JSON.parse(output).files[0].findings.map(({ rule, range }) => `${rule} ${range.start.line}`);
  if (found.length === 1 && found[0] === `no-retract-after-trip ${faultLine}`) return;
  throw new Error(`The fault of line ${faultLine} was not found alone, but: ${found.slice(0, 9)}.`);
}
