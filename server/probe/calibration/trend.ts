import { coverageFactor } from '../combinedUncertainty.ts';
import { leastSquares, residualSpread } from './leastSquares.ts';

export interface StraightLine {
  readonly intercept: number;
  readonly slope: number;
  readonly interceptUncertainty: number;
  readonly slopeUncertainty: number;
  readonly residualStandardDeviation: number;
  readonly degreesOfFreedom: number;
}

/** y = a + b·x by least squares, at least three points and two different x (NIST/SEMATECH e-Handbook 4.4.3.1); standard uncertainties. */
export function straightLine(x: readonly number[], y: readonly number[]): StraightLine {
  const middle = x.reduce((sum, value) => sum + value, 0) / x.length;
  const fit = leastSquares(
    x.map((value) => [1, value - middle]),
    y,
  );
  const spread = residualSpread(fit);
  if (spread === null) throw new Error('A line with an uncertainty needs three points.');
  const [height = 0, slope = 0] = fit.parameters;
  const [ofHeight, ofSlope] = [fit.inverse[0]?.[0] ?? 0, fit.inverse[1]?.[1] ?? 0];
  return {
    intercept: height - slope * middle,
    slope,
    interceptUncertainty: spread * Math.sqrt(ofHeight + ofSlope * middle ** 2),
    slopeUncertainty: spread * Math.sqrt(ofSlope),
    residualStandardDeviation: spread,
    degreesOfFreedom: fit.degreesOfFreedom,
  };
}

/** A calibration as the history keeps it: mm, day as 2025-03-31. */
export interface PastCalibration {
  readonly date: string;
  readonly effectiveDiameter: number;
  readonly expandedUncertainty: number | null;
  /** null: not stated; then no change of the stylus is seen. */
  readonly tipDiameter: number | null;
}

/** How the effective diameter went, and where it goes. */
export interface Trend {
  /** Days from the first calibration that counts. */
  readonly line: StraightLine;
  /** U of the slope, 95 %, mm per day. */
  readonly slopeExpandedUncertainty: number;
  readonly significant: boolean;
  /** When the drift since the last calibration passes its U, by the slope and by its bounds; null: not foreseen. */
  readonly exceeds: {
    readonly expected: string;
    readonly earliest: string;
    readonly latest: string | null;
  } | null;
}

export interface History {
  /** Of the stylus that is in use, by day. */
  readonly counted: readonly PastCalibration[];
  /** Calibrations before the last change of the tip. */
  readonly otherTips: number;
  /** null: fewer than three days. */
  readonly trend: Trend | null;
  /** |D − D_before| over √(U² + U_before²) of the last two (E_n; over 1 they do not agree; ISO 13528, from memory). */
  readonly lastStep: { readonly change: number; readonly normalised: number | null } | null;
}

/** Another actual diameter than this is another stylus, mm. */
const sameTip = 0.001;

export function historyOf(entries: readonly PastCalibration[]): History {
  const ordered = [...entries].sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
  const last = ordered.at(-1);
  const other = (entry: PastCalibration) =>
    entry.tipDiameter !== null &&
    last !== undefined &&
    last.tipDiameter !== null &&
    Math.abs(entry.tipDiameter - last.tipDiameter) > sameTip;
  const from = ordered.findLastIndex(other) + 1;
  const counted = ordered.slice(from);
  return {
    counted,
    otherTips: from,
    trend: trendOf(counted),
    lastStep: stepOf(counted),
  };
}

function trendOf(counted: readonly PastCalibration[]): Trend | null {
  const [first] = counted;
  const last = counted.at(-1);
  if (first === undefined || last === undefined) return null;
  const days = counted.map(({ date }) => dayOf(date) - dayOf(first.date));
  if (new Set(days).size < 3) return null;
  const line = straightLine(
    days,
    counted.map(({ effectiveDiameter }) => effectiveDiameter),
  );
  const slopeExpandedUncertainty = coverageFactor(line.degreesOfFreedom) * line.slopeUncertainty;
  const significant = Math.abs(line.slope) > slopeExpandedUncertainty;
  return { line, slopeExpandedUncertainty, significant, exceeds: significant ? exceeds() : null };

  function exceeds(): Trend['exceeds'] {
    const allowed = last?.expandedUncertainty ?? null;
    if (last === undefined || allowed === null || allowed === 0) return null;
    const after = (slope: number) => (slope <= 0 ? null : dateOf(dayOf(last.date) + allowed / slope));
    const slope = Math.abs(line.slope);
    const [expected, earliest] = [after(slope), after(slope + slopeExpandedUncertainty)];
    if (expected === null || earliest === null) return null;
    return { expected, earliest, latest: after(slope - slopeExpandedUncertainty) };
  }
}

function stepOf(counted: readonly PastCalibration[]): History['lastStep'] {
  const [before, last] = counted.slice(-2);
  if (before === undefined || last === undefined) return null;
  const change = last.effectiveDiameter - before.effectiveDiameter;
  const sure =
    last.expandedUncertainty === null || before.expandedUncertainty === null
      ? 0
      : Math.hypot(last.expandedUncertainty, before.expandedUncertainty);
  return { change, normalised: sure > 0 ? Math.abs(change) / sure : null };
}

const dayLength = 86_400_000;

/** Days since 1970. */
function dayOf(date: string): number {
  return Date.parse(`${date}T00:00:00Z`) / dayLength;
}

/** null: farther than a calendar goes. */
function dateOf(day: number): string | null {
  return day < 2_900_000 ? new Date(Math.floor(day) * dayLength).toISOString().slice(0, 10) : null;
}
