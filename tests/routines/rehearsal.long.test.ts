import { describe, test } from 'vitest';
import { routines } from '../../server/routines/registry.ts';
import { everyCase } from './everyCase.ts';
import { seed } from './randomInputs.ts';
import { expectRehearsal } from './rehearsed.ts';

/** Each sample in mm or in inches, by turns: both are in each case. */
const cases = everyCase(routines).filter(({ units }) => units === 'mm');

describe(`the rehearsal meets the truth and passes with faults, each sample with a sixth of them (seed ${seed})`, () => {
  test.each(cases)('$name, $dialect, $form', (each) => expectRehearsal(each, 200, 'sampled'));
});
