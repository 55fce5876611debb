import { coverageFactor } from './combinedUncertainty.ts';
import type { Probe } from './probe.ts';
import { predictedMeanPreTravel } from './tripModel.ts';

export interface EffectiveDiameter {
  readonly value: number;
  /** null: the calibration does not state it. */
  readonly expandedUncertainty: number | null;
}

/**
 * Twice the mean effective radius, mm, with its U: the calibration's, else predicted by the trip model with 95 %
 * coverage and the latency left out.
 */
export function effectiveDiameter(probe: Probe): EffectiveDiameter {
  const { calibration } = probe;
  if (calibration !== null)
    return { value: calibration.effectiveDiameter, expandedUncertainty: calibration.expandedUncertainty };
  const mean = predictedMeanPreTravel(probe);
  return {
    value: probe.tipDiameter - 2 * mean,
    expandedUncertainty: (coverageFactor(null) * 2 * mean) / Math.sqrt(3),
  };
}
