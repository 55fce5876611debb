import type { Harmonic, Probe } from './probe.ts';
import { predictedMeanPreTravel, predictedPreTravel } from './tripModel.ts';

export type TouchMotion = 'towards' | 'away';

/**
 * Effective radius r(θ, v) of a lateral touch, mm (`error-model.md` section 1): the surface lies at m + r along the
 * approach, m the latched stylus centre. `speed` in mm/s; away, the direction still points to the surface.
 * A calibration that does not state its feed is taken as made at this one. Without a calibration the trip model
 * predicts, with X+ as a low-force direction where the seat's angle is unknown. `turn` is how far the spindle stands
 * from where the probe was calibrated, counter-clockwise seen from +Z, degrees.
 */
export function effectiveRadius(
  probe: Probe,
  directionDegrees: number,
  speed: number,
  motion: TouchMotion,
  turn = 0,
): number {
  return staticRadius(probe, directionDegrees - turn) + latencyShift(probe, speed, motion);
}

/** The same where the phase of the lobes against the machine is unknown: their mean over a turn. */
export function meanEffectiveRadius(probe: Probe, speed: number, motion: TouchMotion): number {
  return meanStaticRadius(probe) + latencyShift(probe, speed, motion);
}

/**
 * r_z of a touch along the axis, mm: the tool length is to the lowest point of the ball and was set by a touch, so
 * only the difference of the feeds is left. `setAt`, mm/s: the feed that the length was set at, the calibration's, else
 * taken as this one.
 */
export function axialRadius(
  probe: Probe,
  speed: number,
  motion: TouchMotion,
  setAt = probe.calibration?.speed ?? speed,
): number {
  const latency = probe.machine.tripLatency;
  return motion === 'towards' ? -(speed - setAt) * latency : (speed + setAt) * latency;
}

/** Actual radius less the mean effective radius, mm: "actual diameter less twice the pre-travel", latency included. */
export function meanPreTravel(probe: Probe): number {
  return probe.tipDiameter / 2 - meanStaticRadius(probe);
}

/** Σ a·cos hθ + b·sin hθ at θ in degrees, in the unit of the harmonics. */
export function lobesAt(harmonics: readonly Harmonic[], directionDegrees: number): number {
  const angle = (directionDegrees * Math.PI) / 180;
  let sum = 0;
  for (const { order, cosine, sine } of harmonics)
    sum += cosine * Math.cos(order * angle) + sine * Math.sin(order * angle);
  return sum;
}

/** r_cal(θ) of a calibrated probe; R − p(θ), latency not included, of a predicted one. */
function staticRadius(probe: Probe, directionDegrees: number): number {
  const { calibration } = probe;
  if (calibration === null) return probe.tipDiameter / 2 - predictedPreTravel(probe, directionDegrees);
  return calibration.effectiveDiameter / 2 + lobesAt(calibration.harmonics ?? [], directionDegrees);
}

function meanStaticRadius(probe: Probe): number {
  if (probe.calibration === null) return probe.tipDiameter / 2 - predictedMeanPreTravel(probe);
  return probe.calibration.effectiveDiameter / 2;
}

function latencyShift(probe: Probe, speed: number, motion: TouchMotion): number {
  const latency = probe.machine.tripLatency;
  // A prediction has no latency in it; a calibration has that of its own feed.
  const included = probe.calibration === null ? 0 : (probe.calibration.speed ?? speed);
  return motion === 'towards' ? -(speed - included) * latency : (speed + included) * latency;
}
