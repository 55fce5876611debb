import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { Probe } from '../probe/probe.ts';

/** What chance adds to a run. */
export interface Chance {
  /** For the next touch: to the trip, mm along the normal, and to the latch, s. */
  touch(probe: Probe): { readonly trip: number; readonly latch: number };
  /** A latched coordinate as the control has it, mm. */
  rounded(coordinate: number, probe: Probe): number;
}

const still = { trip: 0, latch: 0 };

/** The undisturbed run and the faults: no noise, no quantisation. */
export const noChance: Chance = { touch: () => still, rounded: (v) => v };

/** Repeatability, latch period and resolution of the probe, from a seed: one seed, one sequence. */
export function chanceFrom(seed: number): Chance {
  const generator = xoroshiro128plus(seed);
  const uniform = () => uniformFloat64(generator);
  return {
    touch: ({ repeatability, machine }) => ({
      trip: repeatability.standardDeviation * normal(uniform),
      latch: (uniform() - 0.5) * machine.latchPeriod,
    }),
    rounded(coordinate, { machine: { resolution } }) {
      return resolution > 0 ? Math.round(coordinate / resolution) * resolution : coordinate;
    },
  };
}

/** A standard normal number (Box and Muller, 1958). */
function normal(uniform: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}
