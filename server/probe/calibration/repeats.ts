import { fisherQuantile } from '../quantiles.ts';
import type { Spread } from './touches.ts';

/**
 * Spread of values about the mean of their own group, pooled over the groups (JCGM 100:2008 4.2.4 and H.3.6);
 * null where no group has two values.
 */
export function pooledSpread(groups: readonly (readonly number[])[]): Spread | null {
  let sum = 0;
  let degreesOfFreedom = 0;
  for (const group of groups) {
    const mean = meanOf(group);
    for (const value of group) sum += (value - mean) ** 2;
    degreesOfFreedom += Math.max(0, group.length - 1);
  }
  return degreesOfFreedom === 0
    ? null
    : { standardDeviation: Math.sqrt(sum / degreesOfFreedom), degreesOfFreedom };
}

/** Values of touches of one direction, feed and spindle angle, together. */
export function groupedRepeats(
  touches: readonly {
    readonly direction: number;
    readonly speed: number | null;
    readonly spindle: number | null;
  }[],
  values: readonly number[],
): readonly (readonly number[])[] {
  const groups = new Map<string, number[]>();
  for (const [index, { direction, speed, spindle }] of touches.entries()) {
    const turn = Math.round((((direction % 360) + 360) % 360) * 1e6) % 360e6;
    const key = `${turn} ${speed} ${spindle}`;
    const group = groups.get(key) ?? [];
    group.push(values[index] ?? 0);
    groups.set(key, group);
  }
  return [...groups.values()];
}

/**
 * Whether the residuals hold more than the spread of repeated touches: F of the lack of fit against the pure error at
 * 5 % (any textbook of regression; NIST/SEMATECH e-Handbook 4.4.4.6, from memory). null: nothing to test with.
 */
export function modelLacks(residual: Spread, repeats: Spread | null): boolean | null {
  if (repeats === null || repeats.degreesOfFreedom === null || residual.degreesOfFreedom === null)
    return null;
  const freedom = residual.degreesOfFreedom - repeats.degreesOfFreedom;
  if (freedom < 1) return null;
  const pure = repeats.standardDeviation ** 2 * repeats.degreesOfFreedom;
  const lack = Math.max(0, residual.standardDeviation ** 2 * residual.degreesOfFreedom - pure) / freedom;
  if (repeats.standardDeviation < rounding) return Math.sqrt(lack) > 1e-6;
  return lack / repeats.standardDeviation ** 2 > fisherQuantile(0.95, freedom, repeats.degreesOfFreedom);
}

// Repeats that agree to a picometre are made up or rounded.
const rounding = 1e-9;

function meanOf(values: readonly number[]): number {
  // About the first value, so that large coordinates lose no digits.
  const first = values[0] ?? 0;
  let sum = 0;
  for (const value of values) sum += value - first;
  return values.length === 0 ? 0 : first + sum / values.length;
}
