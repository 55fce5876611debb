import { expect, test } from 'vitest';
import { controlLimits } from '../../server/probe/controlLimits.ts';
import { named, referenceCase } from '../published/referenceCase.ts';

const chart = referenceCase<
  { data: number[] },
  { mean: number; MRbar: number; UCL: number; LCL: number; MR_UCL: number }
>('SPC-IMR');

test(named(chart), () => {
  const found = controlLimits(chart.inputs.data);
  expect(found?.mean).toBeCloseTo(chart.expected.mean, 9);
  expect(found?.movingRange).toBeCloseTo(chart.expected.MRbar, 9);
  expect(found?.upper).toBeCloseTo(chart.expected.UCL, 4);
  expect(found?.lower).toBeCloseTo(chart.expected.LCL, 4);
  expect(found?.rangeUpper).toBeCloseTo(chart.expected.MR_UCL, 4);
});

test('one value has no limits', () => {
  expect(controlLimits([5])).toBeNull();
  expect(controlLimits([])).toBeNull();
});
