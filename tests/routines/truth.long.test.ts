import { describe, test } from 'vitest';
import { routines } from '../../server/routines/registry.ts';
import { everyCase } from './everyCase.ts';
import { expectTruth } from './proofs.ts';
import { seed } from './randomInputs.ts';

describe(`the written offset is the true one with a perfect probe (seed ${seed})`, () => {
  test.each(everyCase(routines))('$name, $dialect, $form, $units', (each) => expectTruth(each, 200));
});
