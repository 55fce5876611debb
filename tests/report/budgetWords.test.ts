import { expect, test } from 'vitest';
import { notIncludedTexts } from '../../server/report/budgetWords.ts';

test('what to state is said where it would help: not where the direction is what is missing', () => {
  const [radius, runout] = notIncludedTexts(['effective-radius', 'runout']);
  expect(radius).toContain('state probe.calibration.expandedUncertainty');
  expect(runout).toContain('state probe.runout');
  for (const text of notIncludedTexts(['direction', 'effective-radius', 'lobing', 'runout']))
    expect(text).not.toContain('state ');
});
