import type { CalibrationTouch, ReferenceKind } from '../../../server/probe/calibration/touches.ts';
import { lobesAt } from '../../../server/probe/effectiveRadius.ts';
import type { Harmonic } from '../../../server/probe/probe.ts';

export interface Truth {
  readonly kind?: ReferenceKind;
  readonly size?: number;
  readonly centre?: readonly [number, number];
  /** Mean effective radius at `speed`. */
  readonly radius?: number;
  readonly lobes?: readonly Harmonic[];
  readonly latency?: number;
  /** Error of each touch along its direction. */
  readonly noise?: (index: number) => number;
}

export interface Touched {
  readonly direction: number;
  readonly speed?: number | null;
  readonly spindle?: number | null;
}

/** Where the stylus centre is latched, by `error-model.md` section 1, touching the truth head-on. */
export function touched(truth: Truth, touches: readonly Touched[]): CalibrationTouch[] {
  const { kind = 'ring', size = 25, centre = [3, -1], radius = 1.98, lobes = [], latency = 0, noise } = truth;
  const sign = kind === 'ring' || kind === 'gap' ? 1 : -1;
  return touches.map(({ direction, speed = null, spindle = null }, index) => {
    const angle = (direction * Math.PI) / 180;
    const faster = (speed ?? 0) - (touches[0]?.speed ?? 0);
    const r = radius + lobesAt(lobes, direction - (spindle ?? 0)) - faster * latency;
    const out = (sign * size) / 2 - r + (noise?.(index) ?? 0);
    return {
      row: index + 2,
      direction,
      x: centre[0] + out * Math.cos(angle),
      y: centre[1] + out * Math.sin(angle),
      speed,
      spindle,
    };
  });
}

/** Evenly spaced directions, the first at `from`. */
export function evenly(count: number, from = 0): Touched[] {
  return Array.from({ length: count }, (_, index) => ({ direction: from + (360 * index) / count }));
}
