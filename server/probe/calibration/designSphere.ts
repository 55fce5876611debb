import { type DiameterUncertainty, diameterUncertainty } from './diameterUncertainty.ts';
import { leastSquares } from './leastSquares.ts';
import { approachOf, hemispherePattern, type SphereModel, sphereRow } from './sphere.ts';
import type { Spread } from './touches.ts';

export interface SphereDesign {
  readonly touches: readonly { readonly azimuth: number; readonly elevation: number }[];
  readonly lateral: DiameterUncertainty;
  /** Of the axial radius. */
  readonly axial: DiameterUncertainty;
  readonly degreesOfFreedom: number;
}

/** The 25 touches of the hemisphere and what they will tell: U of the lateral effective diameter and of the axial radius. */
export function designSphere(spread: Spread, referenceUncertainty: number): SphereDesign {
  const touches = hemispherePattern();
  const model: SphereModel = { axial: true, lobes: true };
  const rows = touches.map((touch) => sphereRow(approachOf(touch), model));
  const { inverse, degreesOfFreedom } = leastSquares(
    rows,
    rows.map(() => 0),
  );
  const found = { standardDeviation: spread.standardDeviation, degreesOfFreedom };
  const of = (column: number, share: number, reference: number) => {
    const known = diameterUncertainty(share * (inverse[column]?.[column] ?? 0), found, spread, reference);
    if (known === null) throw new Error('A spread was given.');
    return known;
  };
  return {
    touches,
    lateral: of(0, 4, referenceUncertainty),
    axial: of(4, 1, referenceUncertainty / 2),
    degreesOfFreedom,
  };
}
