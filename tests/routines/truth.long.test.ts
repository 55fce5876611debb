import { describe, test } from 'vitest';
import { routines } from '../../server/routines/registry.ts';
import { everyCase } from './everyCase.ts';
import { expectTruth } from './proofs.ts';
import { seed } from './randomInputs.ts';

// 100 in each unit: 200 of every routine, dialect and form.
describe(`the written offset is the true one with a perfect probe (seed ${seed})`, () => {
  test.each(everyCase(routines))('$name, $dialect, $form, $units', (each) => expectTruth(each, 100));
});
