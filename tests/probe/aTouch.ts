import type { DerivedValue, TouchTerm } from '../../server/probe/derivedError.ts';

/** A latched touch along one axis at 1 mm/s: `touch(0.5, 'x', -1)` is half of the coordinate met in X−. */
export function touch(
  coefficient: number,
  axis: 'x' | 'y' | 'z',
  sign: number,
  changes: Partial<TouchTerm> = {},
): TouchTerm {
  return {
    coefficient,
    axis,
    sign,
    direction: null,
    speed: 1,
    motion: 'towards',
    from: 'latched',
    ...changes,
  };
}

/** What a program works out from touches, with the diameter that it compensates with. */
export function derived(
  terms: readonly TouchTerm[],
  diameterCoefficient = 0,
  changes: Partial<DerivedValue> = {},
): DerivedValue {
  return { terms, diameterCoefficient, diameter: 3.98, size: null, spindlePhaseKnown: true, ...changes };
}
