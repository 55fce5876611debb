import type { SpindleStand } from '../program/spindle.ts';
import type { CallChain, CallChains } from './callChains.ts';
import type { LinearAxis, Touch } from './model.ts';
import type { PlacesNow } from './placesNow.ts';
import type { Record, TouchFacts } from './record.ts';

/** Touches taken between two pauses. */
const atOnce = 100;

/**
 * The touches that the last pass reached, by the ids of the record; in the order of the text, and of the calls to them.
 * Yields where it may pause.
 */
export function* touchesOfRecord(
  record: Record,
  chains: CallChains,
  now: PlacesNow,
): Generator<void, Map<number, Touch>> {
  const sites = [...record.facts].flatMap(([id, facts]) => {
    const site = chains.site(id);
    return site ? [{ id, facts, line: now.line(site.line), ...callsOf(site.chain, now) }] : [];
  });
  sites.sort((a, b) => a.line - b.line || inOrder(a.calls, b.calls));
  const touches = new Map<number, Touch>();
  const angles = new Map<string, string>();
  for (const [order, { id, facts, line, calls, openSubroutine }] of sites.entries()) {
    if (order % atOnce === 0) yield;
    touches.set(id, {
      id: order,
      line,
      calls,
      openSubroutine,
      file: null,
      place: now.place(facts.place),
      code: facts.code,
      alarms: facts.alarms,
      away: facts.away,
      modes: facts.modes,
      tools: facts.tools,
      lengthsOf: facts.lengthsOf,
      feed: now.feed(facts.feed),
      direction: facts.direction,
      axis: axisOf(facts),
      travel: facts.travel,
      height: facts.height,
      rotary: facts.rotary,
      spindle: standing(facts.spindle, angles),
      linearWords: facts.axes.some((i) => i < 3),
      isUsed: record.coordinatesUsed.has(id),
      alone: !record.notAlone.has(id),
      reaches: [...(record.reaches.get(id) ?? [])].sort(),
    });
  }
  return touches;
}

function callsOf({ calls, openSubroutine }: CallChain, now: PlacesNow) {
  return { calls: calls.map((name) => now.line(name)), openSubroutine };
}

/** Angles that nobody knows are numbered as they come: the names of a record hang on what an analyst has met before. */
function standing(spindle: SpindleStand, angles: Map<string, string>): SpindleStand {
  if (spindle.kind !== 'unknown') return spindle;
  const name = angles.get(spindle.name) ?? `angle ${angles.size + 1}`;
  angles.set(spindle.name, name);
  return { ...spindle, name };
}

function inOrder(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < Math.min(a.length, b.length); i++) {
    const difference = (a[i] ?? 0) - (b[i] ?? 0);
    if (difference !== 0) return difference;
  }
  return a.length - b.length;
}

/** The one axis that moves; from the direction where it is known, else from the words of the block. */
function axisOf(facts: TouchFacts): LinearAxis | null {
  const names = ['x', 'y', 'z'] as const;
  if (facts.direction) {
    const along = facts.direction.findIndex((n) => Math.abs(n) > 1 - 1e-9);
    return names[along] ?? null;
  }
  const linear = facts.axes.filter((i) => i < 3);
  return linear.length === 1 ? (names[linear[0] ?? 0] ?? null) : null;
}
