import { expect, test } from 'vitest';
import { runCases } from './anyProgram.ts';

/** Of each half; the two run side by side on two processors. */
const cases = 50_000;
/** CPU seconds that a half may take. */
const mostSeconds = 120;

const seed = Number(process.env.PROBEWRIGHT_SEED ?? 1);

/** Half of 100,000 programs goes through its layers in two minutes. */
export function expectManyRun(half: 'first' | 'second'): void {
  test(`${cases} programs, seed ${seed}, the ${half} half, go through their layers in two minutes`, {
    timeout: 600_000,
  }, async () => {
    const before = process.cpuUsage();
    const first = seed * 2 * cases + (half === 'first' ? 0 : cases);
    await expect(runCases(first, cases)).resolves.toBeUndefined();
    const { user, system } = process.cpuUsage(before);
    expect((user + system) / 1e6).toBeLessThan(mostSeconds);
  });
}
