import { expect, test } from 'vitest';
import { runCases } from './anyProgram.ts';

const cases = 100_000;
/** CPU seconds that all of them may take. */
const mostSeconds = 120;

const seed = Number(process.env.PROBEWRIGHT_SEED ?? 1);

test(`${cases} programs, seed ${seed}, go through their layers in two minutes`, {
  timeout: 600_000,
}, async () => {
  const before = process.cpuUsage();
  await expect(runCases(seed * cases, cases)).resolves.toBeUndefined();
  const { user, system } = process.cpuUsage(before);
  expect((user + system) / 1e6).toBeLessThan(mostSeconds);
});
