import { stemMaterials } from './materials.ts';
import type { Probe, Stylus } from './probe.ts';

/**
 * The trip model of a probe that nobody has calibrated (`error-model.md` section 2): three supports at 120° on a circle,
 * a spring that seats the carrier, a stem that bends. It is the simple model of Estler et al., Precision Engineering
 * 19(2) (1996) 85-97, with friction, early opening of the contacts and the compliance of all but the stem left out,
 * so a prediction is a lower bound: real pre-travel is commonly 1.3 to 2 times it.
 */

/** Force at the tip that trips the probe in the three low and the three high directions and on the mean, N. */
export function tripForces(probe: Probe): {
  readonly low: number;
  readonly high: number;
  readonly mean: number;
} {
  const low = (probe.seat.preload * probe.seat.radius) / (2 * probe.stylus.length);
  return { low, high: 2 * low, mean: meanOverLow * low };
}

/** Force at the tip that trips the probe moving in this direction, N. */
export function tripForce(probe: Probe, directionDegrees: number): number {
  return tripForces(probe).low / Math.cos(fromLowDirection(probe, directionDegrees));
}

/** Stylus movement from first contact to the trip, moving in this direction, mm: the stem bends under the trip force. */
export function predictedPreTravel(probe: Probe, directionDegrees: number): number {
  return tripForce(probe, directionDegrees) * stemCompliance(probe.stylus);
}

/** Mean of the predicted pre-travel over a full turn, mm. Its standard uncertainty is itself/√3. */
export function predictedMeanPreTravel(probe: Probe): number {
  return tripForces(probe).mean * stemCompliance(probe.stylus);
}

/** Predicted movement from first contact to the trip along the axis, mm: P·L/(E·A), small. */
export function predictedAxialPreTravel(probe: Probe): number {
  const { length, stemDiameter, material } = probe.stylus;
  const area = (Math.PI * stemDiameter ** 2) / 4;
  return (probe.seat.preload * length) / (stemMaterials[material].value * area);
}

/** Bending of the stem at its tip, mm/N: L³/(3·E·I), I = π·d⁴/64, a cantilever as in any table of beams. */
export function stemCompliance(stylus: Stylus): number {
  return cantileverCompliance(stylus.length, stylus.stemDiameter, stemMaterials[stylus.material].value);
}

/** mm/N for a round cantilever of length and diameter in mm and modulus in N/mm². */
export function cantileverCompliance(length: number, diameter: number, modulus: number): number {
  const secondMoment = (Math.PI * diameter ** 4) / 64;
  return length ** 3 / (3 * modulus * secondMoment);
}

/**
 * Cosine amplitude of order h of the pre-travel over its mean, the phase at a low-force direction (negative: more
 * pre-travel between). Only multiples of 3 occur; for others 0. Exact: 1/cos ψ integrated term by term.
 */
export function lobingShare(order: number): number {
  if (order <= 0 || order % 3 !== 0) return 0;
  return ((6 / Math.PI) * secantIntegral(order)) / meanOverLow;
}

/** The orders that the model is told about where a phase is unknown; higher ones hold 2 % of the variance. */
export const modelledOrders: readonly number[] = [3, 6, 9];

/** Mean of 1/cos ψ over −60°…60°. */
const meanOverLow = (3 / Math.PI) * Math.log(2 + Math.sqrt(3));

/** ∫₀^{π/3} cos(hψ)/cos ψ dψ, by cos hψ = 2·cos ψ·cos (h−1)ψ − cos (h−2)ψ. */
function secantIntegral(order: number): number {
  if (order === 0) return Math.log(2 + Math.sqrt(3));
  if (order === 1) return Math.PI / 3;
  return (2 * Math.sin(((order - 1) * Math.PI) / 3)) / (order - 1) - secantIntegral(order - 2);
}

/** ψ in radians: angle from the direction to the nearest low-force direction, −60° ≤ ψ ≤ 60°; an unknown seat angle is taken as 0. */
function fromLowDirection(probe: Probe, directionDegrees: number): number {
  const turn = directionDegrees - (probe.seat.angle ?? 0);
  return ((turn - 120 * Math.round(turn / 120)) * Math.PI) / 180;
}
