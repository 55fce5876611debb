import { describe, expect, it } from 'vitest';
import { slopeOf } from '../../server/analysis/slopes.ts';
import { computed, given, single, type Value } from '../../server/program/value.ts';

const x = given('x', 'a test');
const twice = (v: Value): Value => computed('+', [v, v]);

/** The exact derivative beside the difference of two values close by. */
function expectSlope(value: Value, at: number): void {
  const here = (x0: number, by: number) => slopeOf(value, () => ({ at: x0, by }), 'rs274ngc');
  const [low, high] = [here(at - 1e-6, 0), here(at + 1e-6, 0)];
  const found = here(at, 1);
  expect(found).not.toBeNull();
  expect(found?.by).toBeCloseTo(((high?.at ?? Number.NaN) - (low?.at ?? Number.NaN)) / 2e-6, 5);
}

describe('the slope of a value', () => {
  it.each<[string, Value, number]>([
    ['a product', computed('*', [x, twice(x)]), 1.3],
    ['a quotient', computed('/', [x, computed('+', [1, computed('*', [x, x])])]), 0.7],
    ['a power', computed('**', [x, 3]), 1.1],
    ['a root', computed('SQRT', [computed('+', [1, computed('*', [x, x])])]), 0.4],
    ['a size', computed('ABS', [x]), -2],
    ['sine', computed('SIN', [x]), 25],
    ['cosine', computed('COS', [x]), 25],
    ['tangent', computed('TAN', [x]), 25],
    ['an angle', computed('ATAN', [x, 2]), 0.3],
    ['the angle of a sine', computed('ASIN', [x]), 0.3],
    ['the angle of a cosine', computed('ACOS', [x]), 0.3],
  ])('of %s', (_, value, at) => expectSlope(value, at));

  it('is none of a step, and of what is not known', () => {
    const along = () => ({ at: 1.5, by: 1 });
    expect(slopeOf(computed('FIX', [x]), along, 'macro')).toBeNull();
    expect(slopeOf(computed('GT', [x, 1]), along, 'macro')).toBeNull();
    expect(slopeOf(single({ kind: 'success', key: 't:1', touch: 1 }), () => null, 'macro')).toBeNull();
    expect(slopeOf(computed('/', [x, 0]), along, 'macro')).toBeNull();
  });

  it('is nothing where nothing changes', () => {
    expect(slopeOf(computed('FIX', [x]), () => ({ at: 1.5, by: 0 }), 'macro')).toEqual({ at: 1, by: 0 });
    expect(slopeOf(4, () => null, 'macro')).toEqual({ at: 4, by: 0 });
  });
});
