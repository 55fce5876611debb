import type { Probe } from './probe.ts';
import { lobingShare, modelledOrders, predictedMeanPreTravel } from './tripModel.ts';

/** An order whose phase against the machine nobody knows: in each trial it stands anyhow, for all touches alike. */
export interface Lobe {
  readonly order: number;
  readonly amplitude: number;
}

/** What `error-model.md` section 4 says about lobes and run-out of unknown phase. */
export function unknownLobes(probe: Probe, phaseKnown: boolean): readonly Lobe[] {
  const { calibration, runout } = probe;
  const known = calibration?.harmonics ?? null;
  const runoutKnown = known?.some(({ order }) => order === 1) ?? false;
  const turned = runout === null || runoutKnown ? [] : [{ order: 1, amplitude: runout }];
  return [...lobesOf(probe, phaseKnown), ...turned].filter(({ amplitude }) => amplitude > 0);
}

function lobesOf(probe: Probe, phaseKnown: boolean): readonly Lobe[] {
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
