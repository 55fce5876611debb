import type { LinearAxis, Touch } from './model.ts';
import type { Record, TouchFacts } from './record.ts';

/** The touches that the last pass reached, by id. */
export function touchesOfRecord(record: Record): Map<number, Touch> {
  const touches = new Map<number, Touch>();
  for (const site of record.sites) {
    const facts = record.facts.get(site.id);
    if (!facts) continue;
    touches.set(site.id, {
      ...site,
      file: null,
      place: facts.place,
      code: facts.code,
      alarms: facts.alarms,
      away: facts.away,
      modes: facts.modes,
      feed: facts.feed,
      direction: facts.direction,
      axis: axisOf(facts),
      travel: facts.travel,
      rotary: facts.rotary,
      linearWords: facts.axes.some((i) => i < 3),
      reaches: [...(record.reaches.get(site.id) ?? [])],
    });
  }
  return touches;
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
