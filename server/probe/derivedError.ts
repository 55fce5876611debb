import { combinedUncertainty, coverageFactor } from './combinedUncertainty.ts';
import { isCompensated } from './compensated.ts';
import { axialRadius, effectiveRadius, meanEffectiveRadius, type TouchMotion } from './effectiveRadius.ts';
import type { Probe } from './probe.ts';
import { type ReadTouch, readTouches } from './readTouch.ts';
import { stoppingDistance } from './stoppingDistance.ts';
import { uncertaintyComponents } from './uncertaintyComponents.ts';

/** c_i·m_i: a latched (or stopped-at) coordinate in a derived value. Units: mm/s; unit vectors towards the surface. */
export interface TouchTerm {
  readonly coefficient: number;
  /** n_i, the component of the approach on the axis read; null: taken from `direction`. */
  readonly sign: number | null;
  readonly axis: 'x' | 'y' | 'z' | 'a' | 'b' | 'c';
  /** Approach in machine axes, towards the surface; null: taken from `sign` where that is ±1. */
  readonly direction: readonly [number, number, number] | null;
  readonly speed: number | null;
  readonly motion: TouchMotion;
  readonly from: 'latched' | 'stopped';
  /** How far the spindle stands from where the probe was calibrated, counter-clockwise seen from +Z, degrees; absent: not at all. */
  readonly turn?: number;
  /** Names the angle from which `turn` counts where nobody knows that; absent: the calibration's, see `spindlePhaseKnown`. */
  readonly turnedFrom?: string;
}

/** q = Σ c_i·m_i + c_D·D + const. */
export interface DerivedValue {
  readonly terms: readonly TouchTerm[];
  readonly diameterCoefficient: number;
  /** D that the program uses, mm; null: unknown. */
  readonly diameter: number | null;
  /** ℓ of a size (Σ c_i = 0), mm; null: unknown. */
  readonly size: number | null;
  /** False where the program turned the spindle and did not orient it again, the same for all terms that do not say otherwise. */
  readonly spindlePhaseKnown: boolean;
  /** Something is added that is not known and may hold the compensation, such as an input or a product of two; absent: nothing. */
  readonly addedUnknown?: boolean;
}

/** One source of uncertainty in q; `degreesOfFreedom` null = infinite; `source` is the profile key it comes from. */
export interface Component {
  readonly name: string;
  readonly distribution: 'normal' | 'rectangular' | 'arcsine';
  readonly standardUncertainty: number;
  readonly degreesOfFreedom: number | null;
  readonly source: string;
}

/** All in mm. `notIncluded` names what the profile or the program does not state and what is therefore left out. */
export interface ErrorBudget {
  readonly bias: number | null;
  readonly components: readonly Component[];
  readonly notIncluded: readonly string[];
  readonly standardUncertainty: number;
  /** Effective degrees of freedom, not cut; null = infinite. */
  readonly degreesOfFreedom: number | null;
  readonly coverageFactor: number;
  readonly expandedUncertainty: number;
  /** |bias| + U; null where the bias is. */
  readonly expectedError: number | null;
  /** False: bias and radius are predicted by the trip model. */
  readonly calibrated: boolean;
}

/**
 * Error of a value derived from touches, mm (`error-model.md` section 4, JCGM 100:2008): a single touch is one term.
 *
 * bias = c_D·D − Σ c_i·n_i·r(θ_i, v_i); a coordinate read where the axis came to rest adds c_i·n_i·(stopping distance
 * − v·τ), both from the trip. The lobes count in the bias where their phase against the machine is known and in the
 * uncertainty where it is not. A predicted probe whose seat angle is unknown is shown at 0° and still carries the lobes
 * in its uncertainty. The bias is null, and `notIncluded` says why, for a touch along no single axis ('oblique-touch'), of
 * a rotary axis ('rotary-axis'), without a known direction ('direction'), speed ('feed') or diameter ('diameter'), and where
 * the compensation that stands in the value is not right and may be in something unknown beside it ('input').
 */
export function derivedError(probe: Probe, value: DerivedValue): ErrorBudget {
  const touches = readTouches(value.terms);
  const bias = biasOf(probe, value, touches);
  const { components, notIncluded } = uncertaintyComponents(probe, value, touches);
  const { standardUncertainty, degreesOfFreedom } = combinedUncertainty(components);
  const factor = coverageFactor(degreesOfFreedom);
  const expandedUncertainty = factor * standardUncertainty;
  return {
    bias,
    components,
    notIncluded: [...unknownInBias(probe, value, touches), ...notIncluded],
    standardUncertainty,
    degreesOfFreedom,
    coverageFactor: factor,
    expandedUncertainty,
    expectedError: bias === null ? null : Math.abs(bias) + expandedUncertainty,
    calibrated: probe.calibration !== null,
  };
}

function biasOf(probe: Probe, value: DerivedValue, touches: readonly ReadTouch[]): number | null {
  if (hasUnknownCompensation(value)) return null;
  let bias = 0;
  if (value.diameterCoefficient !== 0) {
    if (value.diameter === null) return null;
    bias = value.diameterCoefficient * value.diameter;
  }
  const setAt = probe.calibration?.speed ?? slowestSpeed(touches);
  const atItsFeed =
    probe.calibration === null ? probe : { ...probe, calibration: { ...probe.calibration, speed: setAt } };
  for (const touch of touches) {
    const reported = reportedTooFar(atItsFeed, touch, setAt, value.spindlePhaseKnown);
    if (reported === null) return null;
    bias += touch.coefficient * reported;
  }
  return bias;
}

/** What is right without the unknown part leaves it no compensation to hold. */
function hasUnknownCompensation(value: DerivedValue): boolean {
  return value.addedUnknown === true && !isCompensated(value);
}

/** m − (surface) on the axis read, mm: −n·r, and what the axis ran on where it was read at rest. */
function reportedTooFar(probe: Probe, touch: ReadTouch, setAt: number, phaseKnown: boolean): number | null {
  if (touch.kind !== 'lateral' && touch.kind !== 'axial') return null;
  if (touch.along === 0) return 0;
  const speed = touch.speed ?? (speedMatters(probe, touch) ? null : 0);
  if (speed === null) return null;
  return touch.along * (runOn(probe, touch, speed) - radiusOf(probe, touch, speed, setAt, phaseKnown));
}

function radiusOf(probe: Probe, touch: ReadTouch, speed: number, setAt: number, phaseKnown: boolean): number {
  if (touch.kind === 'axial') return axialRadius(probe, speed, touch.motion, setAt);
  if (!phaseKnown || touch.turnedFrom !== null) return meanEffectiveRadius(probe, speed, touch.motion);
  return effectiveRadius(probe, touch.angle, speed, touch.motion);
}

/** From the latched position to rest along n, mm; zero for what is read latched or returned to. */
function runOn(probe: Probe, touch: ReadTouch, speed: number): number {
  if (!stopsPast(probe, touch)) return 0;
  const way = stoppingDistance(probe, speed) - speed * probe.machine.tripLatency;
  return touch.motion === 'towards' ? way : -way;
}

function stopsPast(probe: Probe, touch: ReadTouch): boolean {
  return touch.from === 'stopped' && probe.machine.afterTrip === 'stops-past';
}

function speedMatters(probe: Probe, touch: ReadTouch): boolean {
  return probe.machine.tripLatency !== 0 || stopsPast(probe, touch);
}

function unknownInBias(probe: Probe, value: DerivedValue, touches: readonly ReadTouch[]): string[] {
  const names: string[] = [];
  if (touches.some((touch) => touch.kind === 'oblique')) names.push('oblique-touch');
  if (touches.some((touch) => touch.kind === 'rotary')) names.push('rotary-axis');
  if (touches.some((touch) => touch.kind === 'unknown')) names.push('direction');
  const moving = touches.filter((touch) => touch.along !== 0 && touch.kind !== 'rotary');
  if (moving.some((touch) => touch.speed === null && speedMatters(probe, touch))) names.push('feed');
  if (calibrationFeedMissing(probe, moving)) names.push('calibration-feed');
  if (moving.some((touch) => stopsPast(probe, touch))) names.push('stopping-distance');
  if (value.diameterCoefficient !== 0 && value.diameter === null) names.push('diameter');
  if (hasUnknownCompensation(value)) names.push('input');
  return names;
}

/**
 * The shift between the touches' feed and the one that the radius or the tool length was set at is not in the bias. It
 * cancels where what is pushed one way is pushed as much the other way.
 */
function calibrationFeedMissing(probe: Probe, moving: readonly ReadTouch[]): boolean {
  if (probe.machine.tripLatency === 0 || (probe.calibration?.speed ?? null) !== null) return false;
  const shifted = moving.filter((touch) => probe.calibration !== null || touch.kind === 'axial');
  const sum = shifted.reduce(
    (total, touch) => total + touch.coefficient * touch.along * (touch.motion === 'towards' ? 1 : -1),
    0,
  );
  return Math.abs(sum) > 1e-12;
}

function slowestSpeed(touches: readonly ReadTouch[]): number {
  const speeds = touches.filter((touch) => touch.along !== 0).map((touch) => touch.speed ?? Infinity);
  const slowest = Math.min(...speeds);
  return Number.isFinite(slowest) ? slowest : 0;
}
