import { expect, test } from 'vitest';
import { cleanPrograms } from './cleanPrograms.ts';
import { shareFound, type Tally, tallyText, tryMutants } from './proof.ts';

/** Routines that are tried, for the sake of time: those that place a work offset on a feature. */
const tried = ['surface', 'bore', 'boss', 'slot', 'web', 'outside-corner'];

/** Of each half, 0.95 of both together. What is missed is printed, so that somebody can mend it. */
const leastShares = [0.93, 0.96] as const;

/** Every mutant of the programs with an even or an odd index: two files, so that two cores share them. */
export function testEveryMutant(half: 0 | 1): void {
  test('the checks find what somebody gets wrong in a right program (every mutant)', () => {
    const tally: Tally = new Map();
    const programs = cleanPrograms().filter(({ routine }) => routine === null || tried.includes(routine));
    for (const [index, program] of programs.entries())
      if (index % 2 === half) tryMutants(program, tally, { oneIn: 1, seed: 1 });
    process.stdout.write(`${tallyText(tally)}\n`);
    expect(shareFound(tally)).toBeGreaterThanOrEqual(leastShares[half]);
  });
}
