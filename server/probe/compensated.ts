import type { DerivedValue } from './derivedError.ts';
import { readTouches } from './readTouch.ts';

/** True where the diameter enters as it must: compensation is right exactly when c_D = ½·Σ c·n over the lateral touches. */
export function isCompensated(value: DerivedValue): boolean {
  return Math.abs(value.diameterCoefficient - rightCoefficient(value)) < 1e-9;
}

/** c_D = ½·Σ c·n over the lateral touches (`error-model.md` section 4). */
export function rightCoefficient({ terms }: DerivedValue): number {
  const lateral = readTouches(terms).filter(({ kind }) => kind === 'lateral');
  return lateral.reduce((sum, { coefficient, along }) => sum + (coefficient * along) / 2, 0);
}
