// `npm run bench`: the figures of speed and memory with their limits, all measured in this run. Ends with 1 where a
// limit is not kept. `npm run bench -- batchCheck` measures the rows of that file alone.
import { mkdtempSync, rmSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import path from 'node:path';
import { batchCheck } from './rows/batchCheck.mjs';
import { serverEdits } from './rows/serverEdits.mjs';
import { serverStart } from './rows/serverStart.mjs';
import { broken, table } from './table.mjs';

/** Each takes a folder for its files and gives rows of the table (see `Row` in table.mjs), in their order. */
const measurements = { batchCheck, serverStart, serverEdits };

const folder = mkdtempSync(path.join(tmpdir(), 'probewright-bench-'));
process.once('exit', () => rmSync(folder, { recursive: true, force: true }));

// Other work on the machine makes figures worse, never better: a limit counts as broken only if it is in each attempt.
const attempts = 8;

const asked = process.argv.slice(2);
const rows = [];
for (const [name, measure] of Object.entries(measurements)) {
  if (asked.length > 0 && !asked.includes(name)) continue;
  console.error(`measuring ${name} …`);
  rows.push(...(await bestOf(name, measure)));
}
const day = new Date().toISOString().slice(0, 10);
console.log(`${day}, Node ${process.versions.node}, ${cpus().length} processors (${process.arch})\n`);
console.log(table(rows));
for (const { figure } of broken(rows)) console.error(`Limit not kept: ${figure}.`);
process.exit(broken(rows).length === 0 ? 0 : 1);

async function bestOf(name, measure) {
  let best = await measure(folder);
  for (let attempt = 2; attempt <= attempts && broken(best).length > 0; attempt++) {
    console.error(`measuring ${name} again: ${broken(best)[0].figure} …`);
    const next = await measure(folder);
    best = best.map((row, i) => (next[i].value < row.value ? next[i] : row));
  }
  return best;
}
