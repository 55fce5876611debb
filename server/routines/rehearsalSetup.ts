import type { Setup } from '../part/setup.ts';
import { type Point, shifted } from '../part/solid.ts';
import type { Profile } from '../profile/profile.ts';
import type { DialectName } from '../syntax/dialect.ts';
import { type ExpectedResult, expectedErrors, greatestError } from './expectedError.ts';
import type { NominalPart, Place } from './nominalPart.ts';
import { planOf } from './plan.ts';
import type { Values } from './readInputs.ts';
import type { InputValue, Plan, Routine, Units } from './routine.ts';
import { tipSource } from './tipDiameter.ts';
import { inUnits } from './units.ts';

export interface Rehearsed {
  readonly routine: Routine;
  readonly inputs: Readonly<Record<string, InputValue>>;
  readonly profile: Profile;
  readonly dialect: DialectName;
  readonly units: Units;
  /** Where the written text leaves its results. */
  readonly parameters: ReadonlyMap<string, string>;
}

/** What the printed decimals and the setup's own rounding may come to, mm or degrees. */
const rounding = 0.002;

/**
 * The setup in which a routine is rehearsed: its nominal part under the tip of a machine that stands as `standing` says, and
 * what its offsets and results must come to there: within the predicted error and what two touches may differ. The part
 * stands off by as much as the search margin and the depth are made for. The inputs are those of a written routine.
 */
export function rehearsalSetup(rehearsed: Rehearsed, standing: Setup): Setup {
  const { routine, inputs, profile, units } = rehearsed;
  const planned = planOf(routine, inputs, profile, units);
  const errors = expectedErrors(routine, inputs, profile, units);
  if ('problems' in planned || 'problems' in errors) throw new Error(`${routine.name} refuses these inputs.`);
  const { plan } = planned;
  const length = lengthOf(standing);
  const [x, y, z] = standing.start;
  const tip: Point = [x, y, z - length];
  const part = routine.part(plan);
  const { solids, places, results } = part;
  const expected = {
    ...placesExpected(places, errors.results, plan, standing.start),
    ...resultsExpected(results, errors.results, plan, rehearsed.parameters),
  };
  return {
    ...withTipDiameter(standing, rehearsed),
    solids: shifted(solids, tip),
    expect: new Map(Object.entries(expected)),
    ...offPlace(part, plan, planned.values, standing.uncertainty.x),
  };
}

type Expected = Record<string, { readonly value: number; readonly tolerance: number }>;

/**
 * Where the work offset must come to lie, along an axis or along the direction that the routine measures in; the tool length
 * is in Z, for no routine puts it in force. Where a feature in X and Y becomes another place than zero, the origin need not
 * turn with a part that stands turned, which no touch of one feature can see: each direction is expected alone then.
 */
function placesExpected(
  places: readonly Place[],
  errors: readonly ExpectedResult[],
  plan: Plan,
  start: Point,
): Expected {
  const coordinates = errors.filter(({ kind }) => kind === 'coordinate');
  const system = plan.workOffset === 'active' ? 'G54' : plan.workOffset;
  const level = places.filter(({ direction }) => direction[2] === 0);
  const isElsewhere = level.length > 1 && level.some(({ becomes }) => becomes !== 0);
  const found: Expected = {};
  for (const [index, { direction, at, becomes }] of places.entries()) {
    const axis = direction.findIndex((share) => Math.abs(Math.abs(share) - 1) < 1e-9);
    const error = coordinates[index];
    if (error === undefined) continue;
    const from = direction.reduce((sum, share, i) => sum + share * (start[i] ?? 0), 0);
    const degrees = (Math.atan2(direction[1], direction[0]) * 180) / Math.PI;
    const isAlone = axis < 0 || (axis < 2 && isElsewhere);
    const key = isAlone ? `xy@${Number(degrees.toFixed(4))}` : 'xyz'.charAt(axis);
    // Backwards along an axis the same place is expected of the axis itself: nothing is written of the other.
    const sign = isAlone ? 1 : (direction[axis] ?? 1);
    const value = sign * (from + at - becomes);
    found[`${system}.${key}`] = { value, tolerance: toleranceOf(error, plan) };
  }
  return found;
}

/** A parameter holds program units; in a setup in inches its file's number is read as inches, whatever it counts. */
function resultsExpected(
  results: Readonly<Record<string, number>>,
  errors: readonly ExpectedResult[],
  plan: Plan,
  parameters: ReadonlyMap<string, string>,
): Expected {
  const found: Expected = {};
  for (const error of errors) {
    const [value, key] = [results[error.name], parameters.get(error.name)];
    if (value === undefined || key === undefined || error.error === null) continue;
    const unit = error.kind === 'angle' && plan.units === 'inch' ? 25.4 : 1;
    found[key] = { value: value * unit, tolerance: toleranceOf(error, plan) * unit };
  }
  return found;
}

/** One of the touches may be false by as much as two may differ. */
function toleranceOf(expected: ExpectedResult, plan: Plan): number {
  const heaviest = Math.max(0, ...expected.value.terms.map(({ coefficient }) => Math.abs(coefficient)));
  return greatestError(expected, plan) + heaviest * plan.pace.agreement + rounding;
}

/** How far the part may be off: no search looks further than its margin, and beside low walls a ball soon meets their edge. */
function offPlace(
  { reach }: NominalPart,
  plan: Plan,
  values: Values,
  usual: number,
): Pick<Setup, 'uncertainty' | 'wrongToolLength'> {
  const margin = amountOr(values, 'margin', 2 * usual);
  const depth = amountOr(values, 'depth', 0);
  const wall = depth > 0 ? 0.8 * ((depth - plan.tipRadius) / 2) : margin;
  const aside = Math.min(usual, margin / 2);
  const turned = reach === undefined ? 1 : (Math.atan(margin / 2 / reach) * 180) / Math.PI;
  return {
    uncertainty: {
      x: aside,
      y: aside,
      z: Math.min(aside, wall),
      degrees: Number(Math.min(1, turned).toFixed(3)),
    },
    wrongToolLength: Math.min(5 * usual, wall, margin),
  };
}

function amountOr(values: Values, name: string, otherwise: number): number {
  const value = values.get(name);
  return typeof value === 'number' ? value : otherwise;
}

/** The effective diameter, where the routine reads it from the control. */
function withTipDiameter(standing: Setup, { profile, dialect, units }: Rehearsed): Setup {
  const { parameter, mm } = tipSource(profile, dialect, units);
  const diameter = mm ?? profile.probe.tipDiameter;
  if (parameter === null) return standing;
  if (parameter !== '#5410')
    return { ...standing, parameters: new Map([[parameter, inUnits(diameter, units)]]) };
  const tools = [...standing.tools].map(
    ([number, tool]) => [number, number === standing.tool ? { ...tool, diameter } : tool] as const,
  );
  return { ...standing, tools: new Map(tools) };
}

function lengthOf({ tool, tools }: Setup): number {
  return tool === null ? 0 : (tools.get(tool)?.length ?? 0);
}
