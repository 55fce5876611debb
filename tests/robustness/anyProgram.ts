import vm from 'node:vm';
import type { DialectName } from '../../server/syntax/dialect.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { randomOf } from './random.ts';
import { randomProgram } from './randomPrograms.ts';
import { claimSound, type Depth } from './sound.ts';

/** CPU seconds that a case may take: a thousand times what the average one does. */
const mostSeconds = 2;
/** Cases under one watch: starting a watch takes longer than most cases do. */
const batch = 64;

const names = Object.keys(dialects) as DialectName[];

interface Case {
  /** How a failure names it. */
  readonly name: string;
  readonly text: string;
  readonly dialect: DialectName;
  readonly seed: number;
  readonly depth: Depth;
  readonly most: number;
}

/** A case by its number alone, so that one that failed can be run again. */
export function programOfCase(number: number): { text: string; dialect: DialectName } {
  const dialect = names[number % names.length] ?? 'rs274ngc';
  return { text: randomProgram(randomOf(number), dialect), dialect };
}

/** Runs cases until one fails; throws with its number and its text. */
export async function runCases(first: number, count: number): Promise<void> {
  for (let from = first; from < first + count; from += batch) {
    const numbers = Array.from({ length: Math.min(batch, first + count - from) }, (_, i) => from + i);
    await runWatched(numbers.map(caseOf));
  }
}

function caseOf(number: number): Case {
  const { text, dialect } = programOfCase(number);
  return { name: `case ${number}`, text, dialect, seed: number, depth: depthOf(number), most: mostSeconds };
}

/** The slower a layer, the fewer cases it gets: a twentieth goes to the editor, a tenth to the checks alone. */
function depthOf(number: number): Depth {
  const turn = Math.floor(number / names.length) % 20;
  return turn === 0 ? 'editor' : turn < 3 ? 'checks' : 'syntax';
}

/** One program; ended from outside where it hangs, refused where it takes more than `most` seconds of CPU time. */
export async function runBounded(
  text: string,
  dialect: DialectName,
  { seed = 1, depth = 'editor', most = mostSeconds }: { seed?: number; depth?: Depth; most?: number } = {},
): Promise<void> {
  await runWatched([{ name: 'program', text, dialect, seed, depth, most }]);
}

const watched = vm.createContext({ run: () => {} });
const runIt = new vm.Script('run()');

async function runWatched(cases: readonly Case[]): Promise<void> {
  const running: Promise<void>[] = [];
  let at = 0;
  watched.run = () => {
    for (; at < cases.length; at++) running.push(runCase(cases[at] as Case));
  };
  try {
    // Wall time is no measure on a busy machine: it only ends what would never end.
    runIt.runInContext(watched, { timeout: 20_000 * Math.max(...cases.map(({ most }) => most)) });
  } catch (fault) {
    throw new Error(shown(cases[at] as Case), { cause: fault });
  }
  await Promise.all(running);
}

/** All but what waits for an answer is done before it returns. */
async function runCase(each: Case): Promise<void> {
  const before = process.cpuUsage();
  try {
    const sound = claimSound(each.text, each.dialect, randomOf(each.seed), each.depth);
    const { user, system } = process.cpuUsage(before);
    await sound;
    const seconds = (user + system) / 1e6;
    if (seconds > each.most)
      throw new Error(`${seconds.toFixed(1)} s of CPU time for ${each.text.length} characters`);
  } catch (fault) {
    throw new Error(shown(each), { cause: fault });
  }
}

function shown({ name, dialect, text }: Case): string {
  return `${name}, ${dialect}: ${JSON.stringify(text.length > 3000 ? `${text.slice(0, 3000)}…` : text)}`;
}
