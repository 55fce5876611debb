import { type DerivedValue, derivedError, type ErrorBudget, type TouchTerm } from '../probe/derivedError.ts';
import { effectiveDiameter } from '../probe/effectiveDiameter.ts';
import { effectiveRadius, meanEffectiveRadius } from '../probe/effectiveRadius.ts';
import type { Probe } from '../probe/probe.ts';
import { overtravelLimit, stoppingDistance } from '../probe/stoppingDistance.ts';
import { probeOf } from '../profile/probeOf.ts';
import type { Profile } from '../profile/profile.ts';
import type { Analysis } from './analysis.ts';
import type { Datum, DiameterUse, Sum, Term, Touch } from './model.ts';
import type { ResultUnit } from './unitOf.ts';

export interface TouchErrorResult extends ErrorBudget {
  /** r(θ, v), mm, its mean over θ where the phase of the lobes is lost; null for Z and where direction or feed are not known. */
  readonly effectiveRadius: number | null;
  /** The diameter that the program uses on this touch, else the profile's, mm; null for Z. */
  readonly diameterUsed: number | null;
  /** Where that diameter stands in the program; null: the profile's. */
  readonly diameterPlace: DiameterUse['place'] | null;
  readonly stoppingDistance: number | null;
  /** What the probe allows in this direction, mm, before the safety factor. */
  readonly overtravelLimit: number;
}

export interface DatumErrorResult extends ErrorBudget {
  readonly diameterCoefficient: number;
  readonly terms: readonly Term[];
  readonly diameters: readonly DiameterUse[];
  readonly restsOnInputs: boolean;
  /** Of the bias and all uncertainties. */
  readonly unit: ResultUnit;
  /** It is no sum of touches: its slopes are taken for it, where the touches are expected (JCGM 100:2008, 5.1.2). */
  readonly firstOrder: boolean;
}

/**
 * The expected error of one touch, mm, along its approach (positive: the surface is reported too deep): bias
 * D/2 − r(θ, v) for a lateral touch, −r_z for one in Z (error-model.md, sections 1 and 4). null for a touch whose axis
 * is not known.
 */
export function touchError(touch: Touch, analysis: Analysis, profile: Profile): TouchErrorResult | null {
  if (touch.axis === null && touch.direction === null) return null;
  const probe = probeOf(profile);
  const speed = speedOf(touch);
  const axial = touch.axis === 'z';
  const used = axial ? null : diameterOf(touch, analysis, probe);
  const term: TouchTerm = {
    coefficient: 1,
    sign: touch.direction === null || touch.axis === null ? null : 1,
    axis: touch.axis ?? 'x',
    direction: touch.direction,
    speed,
    motion: touch.away ? 'away' : 'towards',
    from: 'latched',
    ...turnOf(touch, profile),
  };
  const budget = derivedError(probe, {
    terms: [term],
    diameterCoefficient: axial ? 0 : 0.5,
    diameter: used?.value ?? null,
    size: null,
    spindlePhaseKnown: true,
  });
  return {
    ...budget,
    effectiveRadius: axial ? null : radiusOf(touch, profile, speed),
    diameterUsed: used?.value ?? null,
    diameterPlace: used?.place ?? null,
    stoppingDistance: speed === null ? null : stoppingDistance(probe, speed),
    overtravelLimit: overtravelLimit(probe, touch.direction ?? (axial ? [0, 0, -1] : [1, 0, 0])).limit,
  };
}

/**
 * The expected error of a datum along the machine's + axis, or of a value, in its unit (error-model.md, section 4); null:
 * not known yet.
 */
export function datumError(datum: Datum, profile: Profile): DatumErrorResult | null {
  const value = datumValue(datum, profile);
  const sum = sumOf(datum);
  if (value === null || sum === null) return null;
  const { terms, diameters, restsOnInputs } = sum;
  const budget = derivedError(probeOf(profile), value);
  return {
    ...budget,
    // What grows evenly keeps its angles.
    notIncluded: budget.notIncluded.filter((name) => name !== 'temperature' || datum.unit === 'mm'),
    diameterCoefficient: diameters.reduce((total, d) => total + d.coefficient, 0),
    terms,
    diameters,
    restsOnInputs,
    unit: datum.unit,
    firstOrder: datum.terms === null,
  };
}

function sumOf(datum: Datum): Sum | null {
  return datum.terms === null ? datum.slopes : { ...datum, terms: datum.terms };
}

/** What the datum is made of, as the error model takes it; null: not known yet. */
export function datumValue(datum: Datum, profile: Profile): DerivedValue | null {
  const made = sumOf(datum);
  if (made === null) return null;
  const probe = probeOf(profile);
  const coefficient = made.diameters.reduce((sum, d) => sum + d.coefficient, 0);
  const weighted = made.diameters.reduce(
    (sum, d) => sum + d.coefficient * (d.value ?? effectiveDiameter(probe).value),
    0,
  );
  return {
    terms: made.terms.map(
      (t): TouchTerm => ({
        coefficient: t.coefficient,
        sign: t.sign,
        axis: t.axis,
        direction: t.touch.direction,
        speed: speedOf(t.touch),
        motion: t.touch.away ? 'away' : 'towards',
        from: t.from,
        ...turnOf(t.touch, profile),
      }),
    ),
    // Several diameters in one value are summed as c_D·D with the D that gives their sum; where the coefficients cancel and the
    // values do not, the whole sum stands as one constant.
    diameterCoefficient: Math.abs(coefficient) > 1e-12 ? coefficient : weighted === 0 ? 0 : 1,
    diameter: Math.abs(coefficient) > 1e-12 ? weighted / coefficient : weighted,
    size: null,
    spindlePhaseKnown: true,
    addedUnknown: made.restsOnInputs,
  };
}

function speedOf(touch: Touch): number | null {
  return touch.feed.value === null ? null : touch.feed.value / 60;
}

/** θ is counted from how the probe hung when it was calibrated, at 0° where that is not stated (error-model.md, section 1). */
export function turnOf({ spindle }: Touch, { probe }: Profile): Pick<TouchTerm, 'turn' | 'turnedFrom'> {
  if (spindle.kind === 'as-found') return {};
  if (spindle.kind === 'unknown') return { turn: spindle.degrees, turnedFrom: spindle.name };
  return { turn: spindle.degrees - (probe.calibration?.spindle ?? 0) };
}

function radiusOf(touch: Touch, profile: Profile, speed: number | null): number | null {
  const probe = probeOf(profile);
  const { turn, turnedFrom } = turnOf(touch, profile);
  const n = touch.direction;
  if (n === null || Math.hypot(n[0], n[1]) < 1e-9 || Math.abs(n[2]) > 1e-9) return null;
  if (speed === null && probe.machine.tripLatency !== 0) return null;
  const motion = touch.away ? 'away' : 'towards';
  if (turnedFrom !== undefined) return meanEffectiveRadius(probe, speed ?? 0, motion);
  const angle = (Math.atan2(n[1], n[0]) * 180) / Math.PI;
  return effectiveRadius(probe, angle, speed ?? 0, motion, turn);
}

/** The diameter with which the program compensates a value that this touch enters, else the profile's. */
function diameterOf(
  touch: Touch,
  analysis: Analysis,
  probe: Probe,
): { value: number; place: DiameterUse['place'] | null } {
  for (const datum of analysis.datums) {
    if (!datum.terms?.some((t) => t.touch.id === touch.id)) continue;
    const [use] = datum.diameters;
    if (use && use.value !== null) return { value: use.value, place: use.place };
  }
  return { value: effectiveDiameter(probe).value, place: null };
}
