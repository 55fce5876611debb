import type { Solid } from '../../server/part/solid.ts';
import type { Profile } from '../../server/profile/profile.ts';
import type { NominalPart } from '../../server/routines/nominalPart.ts';
import { planOf } from '../../server/routines/plan.ts';
import type { Plan, Routine, Units } from '../../server/routines/routine.ts';
import { type Disturbance, disturbances } from './disturbances.ts';
import { halfSpace, type Part, solidsPart } from './parts.ts';
import type { Inputs } from './randomInputs.ts';
import type { Point } from './testMachine.ts';

/** A part for a routine to measure, off its place, and what is true of it. mm, machine coordinates. */
export interface Scene {
  readonly part: Part;
  /** Along each direction: where the feature lies, and what that place is to be called. */
  readonly places: NominalPart['places'];
  readonly results: Readonly<Record<string, number>>;
}

export const start: Point = [103.25, 207.5, -151.75];

/** The routine's own nominal part, made a little larger or smaller, turned about the start, and put off its place. */
export function sceneFor(
  routine: Routine,
  inputs: Inputs,
  profile: Profile,
  units: Units,
  random: () => number,
): Scene {
  const planned = planOf(routine, inputs, profile, units);
  if (!('plan' in planned)) throw new Error('refused inputs');
  const { plan } = planned;
  const off = (most: number) => (2 * random() - 1) * most;
  const disturb = disturbances[routine.name];
  if (disturb === undefined) throw new Error(`no disturbances for ${routine.name}`);
  const { move = [0, 0, 0], degrees = 0, larger = {}, tilt } = disturb(plan, off);
  const other: Plan = { ...plan, amount: (name) => plan.amount(name) + (larger[name] ?? 0) };
  const { solids, places, results } = routine.part(other);
  const angleOff = (name: string) =>
    (name === 'tiltX' ? tilt?.[0] : name === 'tiltY' ? tilt?.[1] : undefined) ?? degrees;
  const at: Point = [start[0] + move[0], start[1] + move[1], start[2] + move[2]];
  const moved = solids.map((solid) => movedSolid(solid, at, degrees));
  return {
    part: tilt === undefined ? solidsPart(moved) : leaning(moved, at, tilt),
    places: turnedPlaces(places, degrees).map((place) => ({
      ...place,
      at: place.at + dot(place.direction, at),
    })),
    results: Object.fromEntries(
      Object.entries(results).map(([name, value]) => [
        name,
        value + (isAngle(routine, name) ? angleOff(name) : 0),
      ]),
    ),
  };
}

export type { Disturbance };

/** A place that is known in X and in Y goes along with the part. */
function turnedPlaces(places: NominalPart['places'], degrees: number): NominalPart['places'] {
  const [x, y] = [0, 1].map((axis) => places.find(({ direction }) => direction[axis] === 1));
  if (x === undefined || y === undefined) return places;
  const angle = (degrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return [
    { ...x, at: cos * x.at - sin * y.at },
    { ...y, at: sin * x.at + cos * y.at },
  ];
}

/** The upper face of a solid, for ever on, leaning about the place above which the tip starts: right-handed about X and Y. */
function leaning(solids: readonly Solid[], [x, y]: Point, [aboutX, aboutY]: readonly [number, number]): Part {
  const top = Math.max(...solids.map((solid) => solid.top));
  const rise = Math.tan((aboutX * Math.PI) / 180);
  const fall = Math.tan((aboutY * Math.PI) / 180);
  const long = Math.hypot(rise, fall, 1);
  const normal = [fall / long, -rise / long, 1 / long] as const;
  return halfSpace(normal, dot(normal, [x, y, top]));
}

function movedSolid(solid: Solid, [x, y, z]: Point, degrees: number): Solid {
  const { outline } = solid;
  const angle = (degrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const [newX, newY] = [x + cos * outline.x - sin * outline.y, y + sin * outline.x + cos * outline.y];
  return {
    ...solid,
    bottom: solid.bottom + z,
    top: solid.top + z,
    outline:
      outline.kind === 'circle'
        ? { ...outline, x: newX, y: newY }
        : { ...outline, x: newX, y: newY, angle: outline.angle + angle },
  };
}

function isAngle(routine: Routine, name: string): boolean {
  return routine.results.some((result) => result.name === name && result.kind === 'angle');
}

export function dot(a: readonly [number, number, number], b: Point): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}
