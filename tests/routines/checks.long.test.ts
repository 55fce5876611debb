import { describe, test } from 'vitest';
import { routines } from '../../server/routines/registry.ts';
import { everyCase } from './everyCase.ts';
import { expectNoFindings } from './proofs.ts';
import { seed } from './randomInputs.ts';

// 100 in each unit: 200 of every routine, dialect and form.
describe(`our own checks find nothing above information (seed ${seed})`, () => {
  test.each(everyCase(routines))('$name, $dialect, $form, $units', (each) => expectNoFindings(each, 100));
});
