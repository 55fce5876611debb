import { expect, test } from 'vitest';
import { runCases } from './anyProgram.ts';

// On a busy machine wall time is several times the CPU time.
const timeout = 120_000;

test('any program goes through its layers: nothing thrown, lost or outside the text', {
  timeout,
}, async () => {
  await expect(runCases(1, 400)).resolves.toBeUndefined();
});
