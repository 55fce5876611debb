import type { Point } from '../part/solid.ts';
import { axialRadius, effectiveRadius } from '../probe/effectiveRadius.ts';
import type { Probe } from '../probe/probe.ts';
import { stoppingDistance } from '../probe/stoppingDistance.ts';

/** Contacts whose normal lies nearer to the axis than this push the stylus along it. */
const axialFrom = 0.7;

/** How the probe answers where its ball meets a surface; `normal` points to the surface. mm, mm/s, degrees. */
export interface VirtualProbe {
  readonly probe: Probe;
  readonly radius: number;
  /**
   * How far the ball is pushed along the normal until the probe trips, `turn` being how far the spindle stands from where
   * the probe was calibrated. Slightly negative where a calibration holds more than the pre-travel (run-out, latency).
   */
  preTravel(normal: Point, speed: number, turn: number): number;
  /** How far the stylus may be pushed along the normal. */
  limit(normal: Point): number;
  /** Way from the trip to rest. */
  stopping(speed: number): number;
}

/** The probe of a profile: its calibration, else the trip model (`error-model.md`, sections 1 and 2). */
export function virtualProbe(probe: Probe): VirtualProbe {
  const radius = probe.tipDiameter / 2;
  const latency = probe.machine.tripLatency;
  const lateral = (degrees: number, speed: number, turn: number) => {
    // m = S − R + p + v·τ and S = m + r give p = R − r − v·τ.
    const known = radius - effectiveRadius(probe, degrees, speed, 'towards', turn) - speed * latency;
    return known - (probe.runout ?? 0) * Math.cos(((degrees - turn) * Math.PI) / 180);
  };
  return {
    probe,
    radius,
    preTravel([x, y, z], speed, turn) {
      // The tool length was set by a touch: it holds the axial pre-travel and the latency of that touch.
      if (Math.abs(z) > axialFrom) return -axialRadius(probe, speed, 'towards') - speed * latency;
      return lateral((Math.atan2(y, x) * 180) / Math.PI, speed, turn);
    },
    limit: ([, , z]) => (Math.abs(z) > axialFrom ? probe.overtravel.axial : probe.overtravel.lateral),
    stopping: (speed) => stoppingDistance(probe, speed),
  };
}
