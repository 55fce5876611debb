import type { Probe } from './probe.ts';
import { lobingShare, modelledOrders, predictedMeanPreTravel } from './tripModel.ts';

/** An order whose phase against the machine nobody knows: in each trial it stands anyhow, for all touches alike. */
export interface Lobe {
  /** Of the touches whose turn counts from there; null: from where the probe was calibrated. */
  readonly turnedFrom: string | null;
  readonly order: number;
  readonly amplitude: number;
}

/** What `error-model.md` section 4 says about lobes and run-out of unknown phase, for touches whose turn counts from there. */
export function unknownLobes(probe: Probe, phaseKnown: boolean, turnedFrom: string | null): readonly Lobe[] {
  const { calibration, runout } = probe;
  const known = calibration?.harmonics ?? null;
  const runoutKnown = known?.some(({ order }) => order === 1) ?? false;
  const turned = runout === null || runoutKnown ? [] : [{ order: 1, amplitude: runout }];
  return [...lobesOf(probe, phaseKnown && turnedFrom === null), ...turned]
    .filter(({ amplitude }) => amplitude > 0)
    .map((lobe) => ({ ...lobe, turnedFrom }));
}

function lobesOf(probe: Probe, phaseKnown: boolean): readonly Omit<Lobe, 'turnedFrom'>[] {
  const { calibration, seat, tipDiameter } = probe;
  if (calibration !== null && calibration.harmonics !== null) {
    if (phaseKnown) return [];
    return calibration.harmonics.map(({ order, cosine, sine }) => ({
      order,
      amplitude: Math.hypot(cosine, sine),
    }));
  }
  if (calibration === null && phaseKnown && seat.angle !== null) return [];
  const mean =
    calibration === null ? predictedMeanPreTravel(probe) : (tipDiameter - calibration.effectiveDiameter) / 2;
  return modelledOrders.map((order) => ({ order, amplitude: Math.abs(lobingShare(order)) * mean }));
}
