import { expect, test } from 'vitest';
import { randomNumbers } from '../routines/randomInputs.ts';
import { cleanPrograms } from './cleanPrograms.ts';
import { shareFound, type Tally, tallyText, tryMutants } from './proof.ts';

/** MUTATION_SEED tries another. */
const seed = Number(process.env.MUTATION_SEED ?? 5);

test(`the checks find what somebody gets wrong in a right program (a sample, seed ${seed})`, () => {
  const random = randomNumbers(seed);
  const tally: Tally = new Map();
  // Short ones, for the sake of time; the long test takes the others too.
  const short = cleanPrograms().filter(({ text }) => text.split('\n').length < 130);
  for (const program of short)
    if (random() < 1 / 4) tryMutants(program, tally, { oneIn: 4, seed: Math.floor(random() * 1e9) });
  const total = [...tally.values()].reduce((sum, { found, missed }) => sum + found + missed.length, 0);
  expect(total).toBeGreaterThan(12);
  expect(shareFound(tally), tallyText(tally)).toBeGreaterThanOrEqual(0.7);
}, 120_000);
