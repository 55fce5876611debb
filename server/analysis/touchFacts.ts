import { modeGroups, namesIn } from '../program/modes.ts';
import { spindleStand } from '../program/spindle.ts';
import type { State } from '../program/state.ts';
import { subtract, withLiterals } from '../program/value.ts';
import type { TouchRequest } from '../program/world.ts';
import { travelOf } from './approach.ts';
import { heightOf } from './heights.ts';
import type { Modes, RotaryAxis } from './model.ts';
import type { TouchFacts } from './record.ts';

type Direction = readonly [number, number, number];

/** What a touch looks like where a path reaches it. Lengths in mm. */
export function factsOf(
  request: TouchRequest,
  state: State,
  direction: Direction | null,
  perMm: number,
): TouchFacts {
  const feed = state.feed;
  return {
    place: request.place,
    code: request.code,
    alarms: request.alarms,
    away: request.away,
    modes: modesOf(state),
    tools: state.rig.tools,
    lengthsOf: state.rig.lengthsOf,
    feed: {
      unset: feed.unset,
      value: typeof feed.value === 'number' ? feed.value : null,
      place: feed.place,
      byPath: feed.byPath,
    },
    direction,
    axes: request.axes,
    travel: travelOf(request, perMm),
    height: heightOf(request.from, perMm),
    rotary: rotaryOf(request),
    spindle: spindleStand(state.rig),
  };
}

export function modesOf(state: State): Modes {
  return Object.fromEntries(modeGroups.map((g) => [g, namesIn(g, state.modes[g])])) as unknown as Modes;
}

/** The one linear axis that a touch moves along; null: none, or several. */
export function singleAxis({ axes }: TouchRequest): number | null {
  const linear = axes.filter((i) => !isRotary(i));
  return linear.length === 1 ? (linear[0] ?? null) : null;
}

export function isRotary(i: number): boolean {
  return i >= 3 && i <= 5;
}

function rotaryOf(request: TouchRequest): TouchFacts['rotary'] {
  return request.axes.filter(isRotary).flatMap((i): { axis: RotaryAxis; moves: 'yes' | 'unknown' }[] => {
    const turned = withLiterals(subtract(request.to[i] ?? 0, request.from[i] ?? 0));
    const axis = (['a', 'b', 'c'] as const)[i - 3] as RotaryAxis;
    if (typeof turned !== 'number') return [{ axis, moves: 'unknown' as const }];
    return Math.abs(turned) > 1e-9 ? [{ axis, moves: 'yes' as const }] : [];
  });
}
