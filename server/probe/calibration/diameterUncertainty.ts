import { combinedUncertainty, coverageFactor } from '../combinedUncertainty.ts';
import type { Spread } from './touches.ts';

/** Of an effective diameter (or of another length where the owner says so), mm. */
export interface DiameterUncertainty {
  readonly standardUncertainty: number;
  /** Effective; null = infinite. */
  readonly degreesOfFreedom: number | null;
  readonly coverageFactor: number;
  /** 95 %. */
  readonly expandedUncertainty: number;
  /** What the spread of a touch was taken from: these touches, or what else is known where they leave no degrees of freedom. */
  readonly spreadFrom: 'touches' | 'stated';
}

/**
 * u² = share·s² + (U_ref/2)², degrees of freedom by Welch–Satterthwaite.
 * @param share variance of the length over that of a touch
 * @param found spread seen in the touches; null: none
 * @param stated taken instead then
 * @returns null where neither says anything
 */
export function diameterUncertainty(
  share: number,
  found: Spread | null,
  stated: Spread | null,
  referenceUncertainty: number,
): DiameterUncertainty | null {
  const spread = found ?? stated;
  if (spread === null) return null;
  const combined = combinedUncertainty([
    {
      standardUncertainty: spread.standardDeviation * Math.sqrt(share),
      degreesOfFreedom: spread.degreesOfFreedom,
    },
    { standardUncertainty: referenceUncertainty / 2, degreesOfFreedom: null },
  ]);
  const k = coverageFactor(combined.degreesOfFreedom);
  return {
    ...combined,
    coverageFactor: k,
    expandedUncertainty: k * combined.standardUncertainty,
    spreadFrom: found === null ? 'stated' : 'touches',
  };
}
