import { coverageFactor } from '../combinedUncertainty.ts';
import { angleBetween, type CalibrationTouch, degrees, radians, type Spread } from './touches.ts';

/** Two opposite touches at one spindle angle, repeated ones averaged; mm, degrees. */
export interface AxisPair {
  /** Direction of the axis, [0, 180). */
  readonly axis: number;
  readonly spindle: number | null;
  readonly touches: readonly [number, number];
  /** Sum of the two effective radii, and what the calibration says for it. */
  readonly across: number;
  readonly expected: number;
  /** Half-way between the two latched places, along the axis. */
  readonly middle: number;
  /** ½·(r(θ+180°) − r(θ)) of the calibration: how far the middle should stand off the reference's. */
  readonly expectedOffset: number;
  /** Variance over that of a touch: of `across`, and four times that of `middle`. */
  readonly share: number;
}

/** The middle on one axis at two spindle angles: only odd lobes and run-out move it. */
export interface Reversal {
  readonly axis: number;
  readonly spindles: readonly [number | null, number | null];
  readonly shift: number;
  readonly expected: number;
  /** U of the shift, 95 %. */
  readonly expandedUncertainty: number;
  /** Run-out or three-lobed pre-travel that the calibration has not is at least this in amplitude. */
  readonly leastAmplitude: number;
}

/** Diameters of two axes at one spindle angle: only even lobes and the form of the reference set them apart. */
export interface AcrossDifference {
  readonly axes: readonly [number, number];
  readonly spindle: number | null;
  /** Second less first, beyond what the calibration says. */
  readonly difference: number;
  readonly expandedUncertainty: number;
}

export interface AxisComparison {
  readonly pairs: readonly AxisPair[];
  readonly reversals: readonly Reversal[];
  readonly across: readonly AcrossDifference[];
}

/** Effective radius of one touch: what the calibration says for it, and what it shows with the reference in its place. */
export interface Radii {
  readonly expected: number;
  readonly observed: number;
}

/** Opposite touches, axis by axis and spindle angle by spindle angle, and what they say when one of the two is changed. */
export function compareAxes(
  touches: readonly CalibrationTouch[],
  radii: readonly Radii[],
  spread: Spread,
): AxisComparison {
  const pairs = pairsOf(touches, radii);
  const k = coverageFactor(spread.degreesOfFreedom);
  const sure = (variance: number) => k * spread.standardDeviation * Math.sqrt(variance);
  const reversals: Reversal[] = [];
  const across: AcrossDifference[] = [];
  for (const [index, a] of pairs.entries())
    for (const b of pairs.slice(index + 1)) {
      const sameAxis = a.axis === b.axis;
      const turn = radians((b.spindle ?? 0) - (a.spindle ?? 0));
      if (sameAxis && Math.cos(turn) < 1 - 1e-9) reversals.push(reversalOf(a, b, turn, sure));
      if (!sameAxis && a.spindle === b.spindle)
        across.push({
          axes: [a.axis, b.axis],
          spindle: a.spindle,
          difference: b.across - b.expected - (a.across - a.expected),
          expandedUncertainty: sure(a.share + b.share),
        });
    }
  return { pairs, reversals, across };
}

function pairsOf(touches: readonly CalibrationTouch[], radii: readonly Radii[]): AxisPair[] {
  const pairs: AxisPair[] = [];
  for (const { direction, spindle } of touches) {
    const axis = Number((degrees(radians(direction)) % 180).toFixed(6)) % 180;
    if (pairs.some((pair) => pair.axis === axis && pair.spindle === spindle)) continue;
    const [ahead, behind] = [0, 180].map((turn) => sideOf(touches, radii, axis + turn, spindle));
    if (ahead === undefined || behind === undefined || ahead.count === 0 || behind.count === 0) continue;
    pairs.push({
      axis,
      spindle,
      touches: [ahead.count, behind.count],
      across: ahead.observed + behind.observed,
      expected: ahead.expected + behind.expected,
      middle: (ahead.along - behind.along) / 2,
      expectedOffset: (behind.expected - ahead.expected) / 2,
      share: 1 / ahead.count + 1 / behind.count,
    });
  }
  return pairs;
}

function sideOf(
  touches: readonly CalibrationTouch[],
  radii: readonly Radii[],
  direction: number,
  spindle: number | null,
): Radii & { readonly count: number; readonly along: number } {
  const angle = radians(direction);
  let [count, along, expected, observed] = [0, 0, 0, 0];
  for (const [index, touch] of touches.entries()) {
    if (touch.spindle !== spindle || angleBetween(radians(touch.direction), angle) > 1e-6) continue;
    count += 1;
    along += touch.x * Math.cos(angle) + touch.y * Math.sin(angle);
    expected += radii[index]?.expected ?? 0;
    observed += radii[index]?.observed ?? 0;
  }
  return { count, along: along / count, expected: expected / count, observed: observed / count };
}

/** f(θ−φ₂) − f(θ−φ₁) of an odd lobe of order h and amplitude A is at most 2·A·|sin(h·Δφ/2)|. */
function reversalOf(a: AxisPair, b: AxisPair, turn: number, sure: (variance: number) => number): Reversal {
  const shift = b.middle - a.middle;
  const expected = b.expectedOffset - a.expectedOffset;
  const most = Math.max(...[1, 3].map((order) => 2 * Math.abs(Math.sin((order * turn) / 2))));
  return {
    axis: a.axis,
    spindles: [a.spindle, b.spindle],
    shift,
    expected,
    expandedUncertainty: sure((a.share + b.share) / 4),
    leastAmplitude: Math.abs(shift - expected) / most,
  };
}
