import vm from 'node:vm';
import type { DialectName } from '../../server/syntax/dialect.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { randomOf } from './random.ts';
import { randomProgram } from './randomPrograms.ts';
import { claimSound, type Depth } from './sound.ts';

/** CPU seconds that a case may take: a thousand times what the average one does. */
const mostSeconds = 2;

const names = Object.keys(dialects) as DialectName[];

/** A case by its number alone, so that one that failed can be run again. */
export function programOfCase(number: number): { text: string; dialect: DialectName } {
  const dialect = names[number % names.length] ?? 'rs274ngc';
  return { text: randomProgram(randomOf(number), dialect), dialect };
}

/** Runs cases until one fails; throws with its number and its text. */
export async function runCases(first: number, count: number): Promise<void> {
  for (let number = first; number < first + count; number++) {
    const { text, dialect } = programOfCase(number);
    try {
      await runBounded(text, dialect, { seed: number, depth: depthOf(number) });
    } catch (fault) {
      const shown = JSON.stringify(text.length > 3000 ? `${text.slice(0, 3000)}…` : text);
      throw new Error(`case ${number}, ${dialect}: ${shown}`, { cause: fault });
    }
  }
}

/** The slower a layer, the fewer cases it gets: an eighth goes to the editor, an eighth to the checks alone. */
function depthOf(number: number): Depth {
  const turn = Math.floor(number / names.length) % 8;
  return turn === 0 ? 'editor' : turn === 1 ? 'checks' : 'syntax';
}

/** One program; ended from outside where it hangs, refused where it takes more than `most` seconds of CPU time. */
export async function runBounded(
  text: string,
  dialect: DialectName,
  { seed = 1, depth = 'editor', most = mostSeconds }: { seed?: number; depth?: Depth; most?: number } = {},
): Promise<void> {
  const before = process.cpuUsage();
  const run = () => claimSound(text, dialect, randomOf(seed), depth);
  // Wall time is no measure on a busy machine: it only ends what would never end.
  await vm.runInNewContext('run()', { run }, { timeout: 20 * most * 1000 });
  const { user, system } = process.cpuUsage(before);
  const seconds = (user + system) / 1e6;
  if (seconds > most) throw new Error(`${seconds.toFixed(1)} s of CPU time for ${text.length} characters`);
}
