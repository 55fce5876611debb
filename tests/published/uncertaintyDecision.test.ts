import { expect, test } from 'vitest';
import { derivedError } from '../../server/probe/derivedError.ts';
import { decide, goodFor } from '../../server/probe/goodFor.ts';
import { stoppingDistance } from '../../server/probe/stoppingDistance.ts';
import { aProbe } from '../probe/aProbe.ts';
import { derived, touch } from '../probe/aTouch.ts';
import { named, referenceCase } from './referenceCase.ts';

interface Limited {
  readonly LSL?: number;
  readonly USL: number;
  readonly U: number;
  readonly values: readonly number[];
}

const words: Readonly<Record<string, string>> = {
  conform: 'conforms',
  nonconform: 'does-not-conform',
  uncertain: 'undecided',
};

for (const id of ['DEC-1', 'DEC-3']) {
  const decision = referenceCase<Limited, { decisions: string[] }>(id);
  test(named(decision), () => {
    const { LSL = null, USL, U, values } = decision.inputs;
    const found = values.map((value) => decide(value, { lower: LSL, upper: USL }, U));
    expect(found).toEqual(decision.expected.decisions.map((each) => words[each]));
  });
}

const gauge = referenceCase<{ tolerance_in: number }, { each: number }>('DEC-10');

test(`${named(gauge)}: an expected error of that size is good for that tolerance`, () => {
  const budget = derivedError(aProbe(), derived([touch(1, 'x', 1)], 0.5));
  const good = goodFor({ ...budget, expectedError: gauge.expected.each });
  expect(good?.tenToOne).toBeCloseTo(gauge.inputs.tolerance_in / 2, 12);
});

test('guard band is U and four to one the relaxed ratio (common practice, no source)', () => {
  const budget = derivedError(aProbe(), derived([touch(1, 'x', 1)], 0.5));
  expect(goodFor(budget)).toEqual({
    tenToOne: 10 * (budget.expectedError ?? NaN),
    fourToOne: 4 * (budget.expectedError ?? NaN),
    guardBand: budget.expandedUncertainty,
  });
});

interface Stop {
  readonly feed_mm_min: number;
  readonly accel_mm_s2: number;
  readonly latency_s: number;
}

for (const id of ['STOP-1', 'STOP-3']) {
  const stop = referenceCase<Stop, { total_mm: number }>(id);
  test(named(stop), () => {
    const { feed_mm_min, accel_mm_s2, latency_s } = stop.inputs;
    const probe = aProbe({ machine: { deceleration: accel_mm_s2, reactionTime: latency_s } });
    expect(stoppingDistance(probe, feed_mm_min / 60) / stop.expected.total_mm).toBeCloseTo(1, 9);
  });
}

const jitter = referenceCase<{ feed_mm_min: number; jitter_s: number }, { error_um: number }>('STOP-JIT');

test(`${named(jitter)}: full width of the latch period's component`, () => {
  const speed = jitter.inputs.feed_mm_min / 60;
  const probe = aProbe({ machine: { latchPeriod: jitter.inputs.jitter_s } });
  const budget = derivedError(probe, derived([touch(1, 'x', 1, { speed })]));
  const part = budget.components.find((component) => component.name === 'latch-period');
  expect((part?.standardUncertainty ?? NaN) * Math.sqrt(12) * 1000).toBeCloseTo(jitter.expected.error_um, 9);
});
