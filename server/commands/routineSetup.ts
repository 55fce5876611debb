import { noCalledFiles } from '../analysis/calledFiles.ts';
import type { Setup } from '../part/setup.ts';
import type { Point, Solid } from '../part/solid.ts';
import type { Profile } from '../profile/profile.ts';
import type { Proposal } from '../rehearsal/proposeSetup.ts';
import { rehearse } from '../rehearsal/rehearse.ts';
import type { RunRecord } from '../rehearsal/runRecord.ts';
import { asWritten } from '../rehearsal/setupFile.ts';
import { standingSetup } from '../rehearsal/standingSetup.ts';
import { unstatedTolerance } from '../rehearsal/truthFromTouches.ts';
import type { Place } from '../routines/nominalPart.ts';
import { planOf } from '../routines/plan.ts';
import type { InputValue, Routine, Units } from '../routines/routine.ts';
import type { Source } from '../syntax/source.ts';

/** How far over the origin of the work offset the tip stands when the routine begins, mm. */
const height = 50;
/** What is left of the part beyond what is touched, mm. */
const margin = 40;

/**
 * The setup for the rehearsal of a routine as it was written: the feature that its inputs describe, under the tip, and
 * what the work offset must come to there.
 */
export function routineSetup(
  source: Source,
  routine: Routine,
  inputs: Readonly<Record<string, InputValue>>,
  { profile, units }: { readonly profile: Profile; readonly units: Units },
): Proposal {
  const planned = planOf(routine, inputs, profile, units);
  if ('problems' in planned) throw new Error('a routine was written from inputs that make none');
  const standing = standingSetup(source, noCalledFiles, profile, { units, height });
  const [system = 'G54', origin] = [...standing.workOffsets][0] ?? [];
  const zero: Point = origin ?? [0, 0, 0];
  const nominal = routine.part(planned.plan);
  const tip: Point = [zero[0], zero[1], zero[2] + height];
  const tried = (setup: Setup) => rehearse(source, setup, profile, { faults: [] });
  const whole = tried({ ...standing, solids: nominal.solids.map((solid) => moved(solid, tip)) });
  const { record } = whole.undisturbed;
  const solids = nominal.solids.map((solid) => moved(clipped(solid, reachOf(record, tip)), tip));
  const expect = expectations(nominal.places, { system, tip, record });
  const setup = asWritten({ ...standing, solids, expect });
  return { setup, rehearsal: tried(setup), part: 'nominal' };
}

/** How far from the tip's start the part must reach to be touched as the whole would be. */
function reachOf({ touches }: RunRecord, [x, y]: Point): number {
  const far = touches.flatMap(({ surface }) => (surface ? [Math.hypot(surface[0] - x, surface[1] - y)] : []));
  return Math.max(0, ...far) + margin;
}

function moved({ outline, ...solid }: Solid, [x, y, z]: Point): Solid {
  return {
    ...solid,
    outline: { ...outline, x: outline.x + x, y: outline.y + y },
    bottom: solid.bottom + z,
    top: solid.top + z,
  };
}

/** A block that reaches far is cut down about the start, so that it turns about a place near what is touched. */
function clipped(solid: Solid, reach: number): Solid {
  const { outline } = solid;
  if (outline.kind === 'circle') return solid;
  const [cos, sin] = [Math.cos(outline.angle), Math.sin(outline.angle)];
  // The start as the block's own sides see it, from its middle.
  const u = spanOf(-(outline.x * cos + outline.y * sin), outline.halfX, reach);
  const v = spanOf(outline.x * sin - outline.y * cos, outline.halfY, reach);
  return {
    ...solid,
    outline: {
      ...outline,
      x: outline.x + u.middle * cos - v.middle * sin,
      y: outline.y + u.middle * sin + v.middle * cos,
      halfX: u.half,
      halfY: v.half,
    },
  };
}

function spanOf(
  start: number,
  half: number,
  reach: number,
): { readonly middle: number; readonly half: number } {
  const [from, to] = [Math.max(-half, start - reach), Math.min(half, start + reach)];
  return from < to ? { middle: (from + to) / 2, half: (to - from) / 2 } : { middle: 0, half };
}

interface Standing {
  readonly system: string;
  readonly tip: Point;
  readonly record: RunRecord;
}

/**
 * Where the work offset must come to lie: along an axis, or along the direction that the routine measures in. Where a
 * feature in X and Y becomes another place than zero, the origin need not turn with a part that stands turned, which no
 * touch of one feature can see: each direction is expected alone then.
 */
function expectations(places: readonly Place[], { system, tip, record }: Standing): Setup['expect'] {
  const written = record.written.at(-1)?.key;
  const name = written === undefined ? system : written.slice(0, written.lastIndexOf('.'));
  const lengthLeftOut = record.written.findLast(({ key }) => key.endsWith('.z'))?.lengthLeftOut ?? 0;
  const isElsewhere = places.length > 1 && places.some(({ becomes }) => becomes !== 0);
  return new Map(
    places.map(({ direction, at, becomes }) => {
      const along = direction.reduce((sum, share, axis) => sum + share * (tip[axis] ?? 0), 0);
      const axis = direction.findIndex((share) => Math.abs(share - 1) < 1e-9);
      const alone = axis < 0 || (axis < 2 && isElsewhere);
      // A tool length that is not in force belongs to the height that is written.
      const value = along + at - becomes + (axis === 2 ? lengthLeftOut : 0);
      const degrees = (Math.atan2(direction[1], direction[0]) * 180) / Math.PI;
      const key = alone ? `xy@${Number(degrees.toFixed(4))}` : 'xyz'.charAt(axis);
      return [`${name}.${key}`, { value, tolerance: unstatedTolerance }];
    }),
  );
}
