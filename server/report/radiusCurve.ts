import { effectiveDiameter } from '../probe/effectiveDiameter.ts';
import { effectiveRadius, meanEffectiveRadius } from '../probe/effectiveRadius.ts';
import type { Probe } from '../probe/probe.ts';
import { niceStep } from './pictureStyle.ts';

/** What a calibration saw in one direction: degrees from X+, mm. */
export interface ObservedRadius {
  readonly direction: number;
  readonly effectiveRadius: number;
}

/** How the deviation of the effective radius from its mean is drawn. */
export interface Curve {
  readonly unit: Unit;
  /** In units, at a direction in degrees. */
  readonly deviation: (degrees: number) => number;
  /** Of what was observed, in units. */
  readonly points: readonly { readonly direction: number; readonly deviation: number }[];
  /** Units from one ring to the next. */
  readonly step: number;
  /** Rings on each side of the mean; 0: the radius is the same in every direction. */
  readonly rings: number;
  /** Pixels for one unit. */
  readonly gain: number;
  /** How many times larger than the mean radius deviations are drawn. */
  readonly exaggeration: number;
}

interface Unit {
  readonly millimetres: number;
  /** A whole or round number of units. */
  readonly plain: (value: number) => string;
  /** To a tenth of a unit, without sign. */
  readonly fine: (value: number) => string;
}

const scales: Readonly<Record<'mm' | 'inch', Unit>> = {
  mm: {
    millimetres: 0.001,
    plain: (value) => `${Number(value.toPrecision(3))} µm`,
    fine: (value) => `${value.toFixed(1)} µm`,
  },
  inch: {
    millimetres: 0.00254,
    plain: (value) => `${trimmed((value / 10_000).toFixed(8))} in`,
    fine: (value) => `${(value / 10_000).toFixed(5)} in`,
  },
};

/** @param space pixels of the mean radius and of what the largest deviation may reach to, inwards and outwards */
export function curveOf(
  probe: Probe,
  observed: readonly ObservedRadius[],
  units: 'mm' | 'inch',
  space: { readonly mean: number; readonly room: number },
): Curve {
  const unit = scales[units];
  const still = meanEffectiveRadius(probe, 0, 'towards');
  // What was observed has the latency of the calibration's feed in it, as the effective diameter has.
  const mean = effectiveDiameter(probe).value / 2;
  const deviation = (degrees: number): number =>
    (effectiveRadius(probe, degrees, 0, 'towards') - still) / unit.millimetres;
  const points = observed.map(({ direction, effectiveRadius: radius }) => ({
    direction,
    deviation: (radius - mean) / unit.millimetres,
  }));
  const reach = [...everyHalfDegree().map(deviation), ...points.map((point) => point.deviation)];
  const largest = Math.max(...reach.map(Math.abs));
  // A tenth of a nanometre is rounding, not lobes.
  if (largest * unit.millimetres < 1e-7)
    return { unit, deviation: () => 0, points, step: 0, rings: 0, gain: 0, exaggeration: 1 };
  const step = niceStep(largest / 2);
  const rings = Math.ceil(largest / step - 1e-9);
  const gain = space.room / (rings * step);
  const exaggeration = (gain / unit.millimetres) * (mean / space.mean);
  return { unit, deviation, points, step, rings, gain, exaggeration };
}

export function everyHalfDegree(): number[] {
  return Array.from({ length: 720 }, (_, index) => index / 2);
}

/** A deviation with its sign and unit. */
export function signedDeviation({ unit }: Curve, value: number): string {
  const text = unit.fine(Math.abs(value));
  if (!/[1-9]/.test(text)) return text;
  return value < 0 ? `−${text}` : `+${text}`;
}

function trimmed(decimal: string): string {
  return decimal.replace(/\.?0+$/, '');
}
