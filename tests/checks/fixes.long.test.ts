import { it } from 'vitest';
import { tryFixesOnMutants } from './fixedMutants.ts';

it('fixes take their findings away and add none, on every program in the middle of an edit', () => {
  tryFixesOnMutants(1);
});
