import { lobingShare } from '../tripModel.ts';
import { type DiameterUncertainty, diameterUncertainty } from './diameterUncertainty.ts';
import { dot, leastSquares } from './leastSquares.ts';
import {
  design as designMatrix,
  greatestCondition,
  type Observability,
  observability,
} from './observability.ts';
import type { Spread } from './touches.ts';
import { type Approach, approachesOf, lobeRow, severalSpindles } from './unknowns.ts';

export interface DesignRequest {
  /** How many touches a person will spend, 3 to `mostTouches`. */
  readonly touches: number;
  readonly orders: readonly number[];
  /** Spindle angles that may be used, degrees; none: the probe hangs as it hangs. */
  readonly spindles: readonly number[];
  readonly spread: Spread;
  /** U of the reference, k = 2, mm. */
  readonly referenceUncertainty: number;
  /** Mean pre-travel to expect, mm: what lobes are taken as a share of. */
  readonly meanPreTravel: number;
}

/** Where to touch, and what that will tell before anything is touched. */
export interface CalibrationDesign {
  readonly touches: readonly { readonly direction: number; readonly spindle: number | null }[];
  readonly shares: readonly SpindleShare[];
  readonly observability: Observability;
  readonly degreesOfFreedom: number;
  readonly uncertainty: DiameterUncertainty;
  /** Standard uncertainty of the diameter from predicted lobes that the design does not solve for, their phase unknown, mm. */
  readonly unseenLobes: number;
}

/** The touches of a design at one spindle angle, and in how many different directions they go. */
export interface SpindleShare {
  readonly spindle: number | null;
  readonly touches: number;
  readonly directions: number;
}

export const mostTouches = 200;

/**
 * The design that sees most with these touches and those that come next, from even layouts: every number of directions
 * (the touches that are left repeat them), from 0° or half a step on, at one spindle angle, shared out over all evenly, or
 * with more at the first than at the others, which a few touches need to see all. First come orders seen, then the expanded uncertainty of the diameter with the predicted lobes that stay unseen, then the condition
 * number (even layouts are D-optimal for Fourier columns that they tell apart: Pukelsheim, Optimal Design of Experiments,
 * 1993, from memory). It is deterministic.
 */
export function designCalibration(request: DesignRequest): Designs {
  const { best, others } = designs(request);
  const isBarelySure = best.degreesOfFreedom === 1 && request.touches + 2 <= mostTouches;
  return {
    best,
    others,
    richer: isBarelySure ? designs({ ...request, touches: request.touches + 2 }).best : null,
  };
}

export interface Designs {
  readonly best: CalibrationDesign;
  readonly others: readonly CalibrationDesign[];
  /** With two touches more, where the best leaves one degree of freedom, and Student's t is 12.7. */
  readonly richer: CalibrationDesign | null;
}

function designs(request: DesignRequest): Pick<Designs, 'best' | 'others'> {
  const rated = candidates(request)
    .map((touches) => rate(touches, request))
    .filter((each) => each !== null)
    .sort((a, b) => before(a, b, request));
  const [best, ...rest] = rated;
  if (best === undefined) throw new Error('Three even directions always make a design.');
  const others: CalibrationDesign[] = [];
  for (const each of rest) {
    const isKnown = [best, ...others].some((known) => layoutKey(known) === layoutKey(each));
    if (!isKnown && others.length < 3) others.push(each);
  }
  return { best, others };
}

function layoutKey({ shares }: CalibrationDesign): string {
  return shares.map(({ touches, directions }) => `${touches}/${directions}`).join(' ');
}

type Place = CalibrationDesign['touches'][number];

function candidates({ touches, spindles }: DesignRequest): (readonly Place[])[] {
  const [first = null] = spindles;
  const sets: (readonly (number | null)[])[] = spindles.length > 1 ? [[first], spindles] : [[first]];
  return sets.flatMap((angles) => {
    const each = Math.floor(touches / angles.length);
    const found: (readonly Place[])[] = unevenShares(touches, angles);
    for (
      let directions = Math.max(1, Math.min(3, each));
      directions <= Math.min(each, mostDirections);
      directions += 1
    )
      for (const from of [0, 180 / directions])
        for (const shift of angles.length > 1 ? [0, 360 / directions / angles.length] : [0])
          found.push(layout(touches, directions, from, shift, angles));
    return found;
  });
}

// A person does not set more angles by hand, and repeats say more.
const mostDirections = 48;

/** Fewer at every angle than at the first, in as many even directions as there are touches. */
function unevenShares(touches: number, angles: readonly (number | null)[]): (readonly Place[])[] {
  const found: (readonly Place[])[] = [];
  const others = angles.length - 1;
  if (others === 0) return found;
  for (let few = 2; few < Math.floor(touches / angles.length); few += 1) {
    const many = touches - few * others;
    if (many > mostDirections) continue;
    for (const from of [0, 180 / many])
      for (const turn of [0, 90 / few, 180 / few])
        found.push(
          angles.flatMap((spindle, index) =>
            evenPlaces(index === 0 ? many : few, index === 0 ? from : turn * index, spindle),
          ),
        );
  }
  return found;
}

function evenPlaces(directions: number, from: number, spindle: number | null): Place[] {
  return Array.from({ length: directions }, (_, index) => ({
    direction: Number(((from + (360 * index) / directions) % 360).toFixed(4)),
    spindle,
  }));
}

function layout(
  touches: number,
  directions: number,
  from: number,
  shift: number,
  angles: readonly (number | null)[],
): Place[] {
  const places: Place[] = [];
  for (const [turn, spindle] of angles.entries()) {
    const share = Math.floor(touches / angles.length) + (turn < touches % angles.length ? 1 : 0);
    for (let index = 0; index < share; index += 1) {
      const direction = (from + shift * turn + (360 * (index % directions)) / directions) % 360;
      places.push({ direction: Number(direction.toFixed(4)), spindle });
    }
  }
  return places;
}

function rate(touches: readonly Place[], request: DesignRequest): CalibrationDesign | null {
  const placed = touches.map((touch) => ({ ...touch, speed: null }));
  const approaches = approachesOf(placed);
  const turned = severalSpindles(placed);
  const seen = observability(approaches, request.orders, turned);
  const rows = designMatrix(approaches, seen.unknowns);
  if (!Number.isFinite(seen.condition) || seen.condition > greatestCondition) return null;
  const { inverse, degreesOfFreedom } = leastSquares(
    rows,
    rows.map(() => 0),
  );
  const found =
    degreesOfFreedom > 0 ? { standardDeviation: request.spread.standardDeviation, degreesOfFreedom } : null;
  const uncertainty = diameterUncertainty(
    4 * (inverse[0]?.[0] ?? 0),
    found,
    request.spread,
    request.referenceUncertainty,
  );
  if (uncertainty === null) return null;
  return {
    touches,
    shares: sharesOf(touches),
    observability: seen,
    degreesOfFreedom,
    uncertainty,
    unseenLobes: unseenLobes(
      approaches,
      seen,
      rows.map((row) => dot(row, inverse[0] ?? [])),
      request.meanPreTravel,
    ),
  };
}

function sharesOf(touches: readonly Place[]): SpindleShare[] {
  return [...new Set(touches.map(({ spindle }) => spindle))].map((spindle) => {
    const there = touches.filter((touch) => touch.spindle === spindle);
    return {
      spindle,
      touches: there.length,
      directions: new Set(there.map(({ direction }) => direction)).size,
    };
  });
}

/** Orders of the trip model; higher ones are under a hundredth of the mean. */
const predicted = [3, 6, 9, 12, 15, 18, 21, 24];

/** The weights of the touches in the radius tell what each lobe that is not solved for does to it. */
function unseenLobes(
  approaches: readonly Approach[],
  { unknowns }: Observability,
  weights: readonly number[],
  meanPreTravel: number,
): number {
  const parts = predicted
    .filter((order) => !unknowns.orders.includes(order))
    .map((order) => {
      const lobes = approaches.map((approach) => lobeRow(approach, order));
      const [cosine, sine] = [0, 1].map((phase) =>
        dot(
          weights,
          lobes.map((pair) => pair[phase] ?? 0),
        ),
      );
      const amplitude = Math.abs(lobingShare(order)) * meanPreTravel;
      return (2 * amplitude * Math.hypot(cosine ?? 0, sine ?? 0)) / Math.SQRT2;
    });
  return Math.hypot(...parts);
}

function before(a: CalibrationDesign, b: CalibrationDesign, { spindles }: DesignRequest): number {
  const ranks = (each: CalibrationDesign) => [
    // Run-out cannot be seen at one angle: where there could be more, that is one order less.
    each.observability.notObservable.length + (spindles.length > 1 && each.shares.length === 1 ? 1 : 0),
    // A tenth of a micrometre is nobody's reason for odd angles.
    Math.round(
      Math.hypot(each.uncertainty.expandedUncertainty, each.uncertainty.coverageFactor * each.unseenLobes) *
        1e4,
    ),
    isRegular(each) ? 0 : 1,
    Math.round(each.observability.condition * 10),
    -(each.shares[0]?.directions ?? 0),
    each.touches[0]?.direction ?? 0,
  ];
  const [left, right] = [ranks(a), ranks(b)];
  const at = left.findIndex((value, index) => value !== right[index]);
  return at < 0 ? 0 : (left[at] ?? 0) - (right[at] ?? 0);
}

/** The same at every spindle angle, and every direction as often as the others. */
function isRegular({ shares }: CalibrationDesign): boolean {
  const [first] = shares;
  return shares.every(({ touches, directions }) => touches === first?.touches && touches % directions === 0);
}
