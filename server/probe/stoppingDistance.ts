import type { Probe } from './probe.ts';

/** Way from the trip to rest, mm, at a speed in mm/s that was reached: v·t_r + v²/(2a) (elementary kinematics). */
export function stoppingDistance(probe: Probe, speed: number): number {
  const { reactionTime, deceleration } = probe.machine;
  return speed * reactionTime + speed ** 2 / (2 * deceleration);
}

/** The fastest speed, mm/s, that still stops within this distance, mm: the inverse of `stoppingDistance`. */
export function speedForStoppingDistance(probe: Probe, distance: number): number {
  const { reactionTime, deceleration } = probe.machine;
  const braked = deceleration * reactionTime;
  return Math.sqrt(braked ** 2 + 2 * deceleration * distance) - braked;
}

/**
 * Overtravel of a touch along this unit vector, mm: what the probe allows, and what the safety factor leaves of it.
 * A direction with both a lateral and an axial component gets the smaller of the two.
 */
export function overtravelLimit(
  probe: Probe,
  direction: readonly [number, number, number],
): { readonly limit: number; readonly allowed: number } {
  const lateral = Math.hypot(direction[0], direction[1]) > 1e-9;
  const axial = Math.abs(direction[2]) > 1e-9;
  const limit = Math.min(
    lateral ? probe.overtravel.lateral : Infinity,
    axial ? probe.overtravel.axial : Infinity,
  );
  return { limit, allowed: limit / probe.overtravelSafetyFactor };
}
