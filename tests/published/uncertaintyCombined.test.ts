import { expect, test } from 'vitest';
import { combinedUncertainty, coverageFactor } from '../../server/probe/combinedUncertainty.ts';
import { derivedError } from '../../server/probe/derivedError.ts';
import { aProbe } from '../probe/aProbe.ts';
import { derived, touch } from '../probe/aTouch.ts';
import { named, referenceCase } from './referenceCase.ts';

interface GaugeInput {
  readonly name: string;
  readonly u_nm?: number;
  readonly u?: number;
  readonly u_C?: number;
  readonly c?: number;
  readonly nu?: number;
}

interface Gauge {
  readonly l_S_nm: number;
  readonly alpha_S_per_C: number;
  readonly theta_C: number;
  readonly components: readonly GaugeInput[];
}

/** Contributions to the length of H.1, from the unrounded inputs of the case. */
function gaugeContributions({ l_S_nm, alpha_S_per_C, theta_C, components }: Gauge) {
  const sensitivity: Record<string, number> = {
    delta_alpha: l_S_nm * theta_C,
    delta_theta: l_S_nm * alpha_S_per_C,
  };
  // The case prints 5.8e-7 and 0.029 for 1e-6/√3 and 0.05/√3, 5.8, 3.9 and 6.7 for 13/√5, 10/2.57 and 20/3.
  const unrounded: Record<string, number> = {
    delta_alpha: 1e-6 / Math.sqrt(3),
    delta_theta: 0.05 / Math.sqrt(3),
    'd mean': 13 / Math.sqrt(5),
    'd1 comparator random': 10 / 2.57,
    'd2 comparator systematic': 20 / 3,
  };
  return components
    .filter((part) => part.c !== 0)
    .map(({ name, u_nm, nu }) => ({
      standardUncertainty: Math.abs((sensitivity[name] ?? 1) * (unrounded[name] ?? u_nm ?? NaN)),
      degreesOfFreedom: nu ?? null,
    }));
}

const combined = referenceCase<Gauge, { uc_nm: number }>('GUM-H1-uc');

test(named(combined), () => {
  const found = combinedUncertainty(gaugeContributions(combined.inputs)).standardUncertainty;
  expect(Math.abs(found - combined.expected.uc_nm)).toBeLessThan(0.02);
});

const effective = referenceCase<Gauge, { nu_eff: number; nu_eff_published: number }>('GUM-H1-nueff');

test(named(effective), () => {
  const nu = combinedUncertainty(gaugeContributions(effective.inputs)).degreesOfFreedom;
  expect(Math.abs((nu ?? NaN) - effective.expected.nu_eff)).toBeLessThan(0.05);
});

const pooled = referenceCase<{ u_nm: number[]; nu: number[] }, { u_nm: number; nu: number }>('GUM-H1-d');

test(`${named(pooled)}: the published 25.6 needs the inputs before rounding`, () => {
  const unrounded = [13 / Math.sqrt(5), 10 / 2.57, 20 / 3];
  const parts = unrounded.map((standardUncertainty, index) => ({
    standardUncertainty,
    degreesOfFreedom: pooled.inputs.nu[index] ?? NaN,
  }));
  unrounded.forEach((u, index) => {
    expect(Math.abs(u - (pooled.inputs.u_nm[index] ?? NaN))).toBeLessThan(0.05);
  });
  const found = combinedUncertainty(parts);
  expect(Math.abs(found.standardUncertainty - pooled.expected.u_nm)).toBeLessThan(0.05);
  expect(Math.abs((found.degreesOfFreedom ?? NaN) - pooled.expected.nu)).toBeLessThan(0.05);
});

for (const nu of ['1', '2', '4', '5', '8', '10', '16', '18', '24', '30', '100', 'inf']) {
  const table = referenceCase<{ nu: number | 'inf'; p: number[] }, { t: number[]; t_full: number[] }>(
    `GUM-G2-${nu}`,
  );
  test(named(table), () => {
    table.inputs.p.forEach((p, index) => {
      const k = coverageFactor(table.inputs.nu === 'inf' ? null : table.inputs.nu, p);
      expect(Math.abs(k - (table.expected.t[index] ?? NaN))).toBeLessThan(0.0051);
      expect(Math.abs(k - (table.expected.t_full[index] ?? NaN))).toBeLessThan(1e-6);
    });
  });
}

const upper = referenceCase<{ nu: number; upper_tail: number[] }, { t: number[] }>('GUM-EH-T16');

test(named(upper), () => {
  upper.inputs.upper_tail.forEach((tail, index) => {
    const k = coverageFactor(upper.inputs.nu, 1 - 2 * tail);
    expect(Math.abs(k - (upper.expected.t[index] ?? NaN))).toBeLessThan(0.0006);
  });
});

for (const id of ['QN-0.9', 'QN-0.95', 'QN-0.99']) {
  const normal = referenceCase<{ p: number }, { z: number }>(id);
  test(`${named(normal)}: the coverage factor at infinite degrees of freedom`, () => {
    expect(Math.abs(coverageFactor(null, 2 * normal.inputs.p - 1) - normal.expected.z)).toBeLessThan(1e-6);
  });
}

const resolution = referenceCase<{ dx: number }, { u: number }>('GUM-RES');

test(`${named(resolution)}: of one touch`, () => {
  const probe = aProbe({ machine: { resolution: resolution.inputs.dx } });
  const part = derivedError(probe, derived([touch(1, 'x', 1)])).components.find(
    (c) => c.name === 'resolution',
  );
  expect(part?.standardUncertainty).toBeCloseTo(resolution.expected.u, 12);
});

const rectangle = referenceCase<{ a: number }, { u: number }>('GUM-TB-rect');

test(`${named(rectangle)}: the temperature of a size`, () => {
  // 11.5e-6 · 1 K · ℓ is the half-width a.
  const probe = aProbe({ machine: { temperatureSpread: 1 } });
  const size = rectangle.inputs.a / 11.5e-6;
  const budget = derivedError(probe, derived([touch(1, 'x', 1), touch(-1, 'x', -1)], 1, { size }));
  const part = budget.components.find((c) => c.name === 'temperature');
  expect(part?.standardUncertainty).toBeCloseTo(rectangle.expected.u, 12);
});

const arcsine = referenceCase<{ a: number }, { u: number }>('GUM-TB-arc');

test(`${named(arcsine)}: run-out of unknown phase`, () => {
  const budget = derivedError(aProbe({ runout: arcsine.inputs.a }), derived([touch(1, 'x', 1)]));
  const part = budget.components.find((c) => c.name === 'runout');
  expect(part?.standardUncertainty).toBeCloseTo(arcsine.expected.u, 12);
  expect(part?.distribution).toBe('arcsine');
});

const sum = referenceCase<{ n: number; u: number }, { u: number; interval95: [number, number] }>('MC-922');

test(`${named(sum)}: root sum of squares and k`, () => {
  const parts = Array.from({ length: sum.inputs.n }, () => ({
    standardUncertainty: sum.inputs.u,
    degreesOfFreedom: null,
  }));
  const { standardUncertainty, degreesOfFreedom } = combinedUncertainty(parts);
  expect(standardUncertainty).toBe(sum.expected.u);
  expect(coverageFactor(degreesOfFreedom) * standardUncertainty).toBeCloseTo(sum.expected.interval95[1], 6);
});

const wide = referenceCase<{ u: number[] }, { u: number; gum_interval: [number, number] }>('MC-924');

test(`${named(wide)}: the interval of the linear method, too wide for rectangles`, () => {
  const parts = wide.inputs.u.map((u) => ({ standardUncertainty: u, degreesOfFreedom: null }));
  const { standardUncertainty, degreesOfFreedom } = combinedUncertainty(parts);
  expect(standardUncertainty).toBeCloseTo(wide.expected.u, 9);
  expect(coverageFactor(degreesOfFreedom) * standardUncertainty).toBeCloseTo(
    wide.expected.gum_interval[1],
    5,
  );
});

const triangle = referenceCase<{ a: number }, { u: number }>('GUM-TB-tri');

test(`${named(triangle)}: the sum of two rectangles of half the width`, () => {
  const half = { standardUncertainty: triangle.inputs.a / 2 / Math.sqrt(3), degreesOfFreedom: null };
  expect(combinedUncertainty([half, half]).standardUncertainty).toBeCloseTo(triangle.expected.u, 12);
});
