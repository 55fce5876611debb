import { it } from 'vitest';
import { tryFixesOnMutants } from './fixedMutants.ts';

it('fixes take their findings away and add none, on some programs in the middle of an edit', () => {
  tryFixesOnMutants(41);
}, 60_000);
