import { noCalledFiles } from '../analysis/calledFiles.ts';
import type { Setup } from '../part/setup.ts';
import type { Solid } from '../part/solid.ts';
import type { Proposal } from '../rehearsal/proposeSetup.ts';
import { rehearse } from '../rehearsal/rehearse.ts';
import type { RunRecord } from '../rehearsal/runRecord.ts';
import { asWritten } from '../rehearsal/setupFile.ts';
import { standingSetup } from '../rehearsal/standingSetup.ts';
import { type Rehearsed, rehearsalSetup } from '../routines/rehearsalSetup.ts';
import type { Source } from '../syntax/source.ts';

/** How far over the origin of the work offset the tip stands when the routine begins, mm. */
const height = 50;
/** What is left of the part beyond what is touched, mm. */
const margin = 40;

/** The setup for the rehearsal of a routine as it was written: what it declares, under the tip of a machine that stands as it may. */
export function routineSetup(source: Source, rehearsed: Rehearsed): Proposal {
  const { profile, units } = rehearsed;
  const standing = standingSetup(source, noCalledFiles, profile, { units, height });
  const tried = (setup: Setup) => rehearse(source, setup, profile, { faults: [] });
  const declared = rehearsalSetup(rehearsed, standing);
  const [x, y] = declared.start;
  const reach = reachOf(tried(declared).undisturbed.record, [x, y]);
  const solids = declared.solids.map((solid) => clipped(solid, [x, y], reach));
  const setup = asWritten({ ...declared, solids });
  return { setup, rehearsal: tried(setup), part: 'nominal' };
}

/** How far from the tip's start the part must reach to be touched as the whole would be. */
function reachOf({ touches }: RunRecord, [x, y]: readonly [number, number]): number {
  const far = touches.flatMap(({ surface }) => (surface ? [Math.hypot(surface[0] - x, surface[1] - y)] : []));
  return Math.max(0, ...far) + margin;
}

/** A block that reaches far is cut down about the start, so that it turns about a place near what is touched. */
function clipped(solid: Solid, [x, y]: readonly [number, number], reach: number): Solid {
  const { outline } = solid;
  if (outline.kind === 'circle') return solid;
  const [cos, sin] = [Math.cos(outline.angle), Math.sin(outline.angle)];
  // The start as the block's own sides see it, from its middle.
  const [dx, dy] = [x - outline.x, y - outline.y];
  const u = spanOf(dx * cos + dy * sin, outline.halfX, reach);
  const v = spanOf(dy * cos - dx * sin, outline.halfY, reach);
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
