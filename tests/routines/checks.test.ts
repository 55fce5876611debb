import { describe, test } from 'vitest';
import { routines } from '../../server/routines/registry.ts';
import { everyCase } from './everyCase.ts';
import { expectNoFindings } from './proofs.ts';
import { seed } from './randomInputs.ts';

describe(`our own checks find nothing above information (seed ${seed})`, () => {
  test.each(everyCase(routines))('$name, $dialect, $form, $units', (each) => expectNoFindings(each, 20));
});
