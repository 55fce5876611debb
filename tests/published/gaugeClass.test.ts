import { describe, expect, test } from 'vitest';
import {
  type GaugeClass,
  type GaugeKind,
  gaugeDeviations,
  gaugeTolerance,
} from '../../server/probe/gaugeClass.ts';
import { named, referenceCase } from './referenceCase.ts';

const inch = 25.4;

for (const [id, gaugeClass] of [
  ['GT-X', 'X'],
  ['GT-Z', 'Z'],
  ['GT-ZZ', 'ZZ'],
] as const) {
  const row = referenceCase<{ ranges_in: [number, number][] }, { microinch: number[]; mm: number[] }>(id);
  test(named(row), () => {
    row.inputs.ranges_in.forEach(([above, end], index) => {
      const wanted = row.expected.mm[index] ?? Number.NaN;
      expect(gaugeTolerance(end * inch, gaugeClass)).toBeCloseTo(wanted, 9);
      expect(gaugeTolerance((above + 1e-6) * inch, gaugeClass)).toBeCloseTo(wanted, 9);
      expect(wanted / inch / 1e-6).toBeCloseTo(row.expected.microinch[index] ?? Number.NaN, 6);
    });
  });
}

for (const id of ['GT-LOOK-1', 'GT-LOOK-3']) {
  const look = referenceCase<{ diameter_mm: number; class: GaugeClass }, { tolerance_mm: number }>(id);
  test(named(look), () => {
    expect(gaugeTolerance(look.inputs.diameter_mm, look.inputs.class)).toBeCloseTo(
      look.expected.tolerance_mm,
      9,
    );
  });
}

const direction = referenceCase<object, Record<string, string>>('GT-DIR');
describe(named(direction), () => {
  const kinds: readonly (readonly [GaugeKind, string])[] = [
    ['ring-go', 'ring_go'],
    ['ring-no-go', 'ring_nogo'],
    ['plug-go', 'plug_go'],
    ['plug-no-go', 'plug_nogo'],
    ['master', 'master'],
  ];
  test.each(kinds)('%s', (kind, key) => {
    const [least, greatest] = gaugeDeviations(25, 'X', kind) ?? [Number.NaN, Number.NaN];
    expect(greatest - least).toBeCloseTo(0.001524, 9);
    const way = Math.abs(least + greatest) < 1e-12 ? 'split 50/50' : least < 0 ? 'minus' : 'plus';
    expect(way).toBe(direction.expected[key]);
  });
});

const tenth = referenceCase<object, { each: number }>('DEC-10');
test(`${named(tenth)}: of a 1 in gauge class Y is within it and class Z is not (its note)`, () => {
  const allowed = tenth.expected.each * inch;
  expect(gaugeTolerance(inch, 'Y')).toBeLessThanOrEqual(allowed);
  expect(gaugeTolerance(inch, 'Z')).toBeGreaterThan(allowed);
});

test('a size that the table does not have has no tolerance', () => {
  for (const size of [0, 0.2, -3, Number.NaN, 12.02 * inch]) expect(gaugeTolerance(size, 'X')).toBeNull();
  expect(gaugeDeviations(0, 'X', 'master')).toBeNull();
});
