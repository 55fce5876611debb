import { readParameter } from '../program/parameters.ts';
import type { Value } from '../program/value.ts';
import type { World } from '../program/world.ts';
import type { DialectName } from '../syntax/dialect.ts';
import type { StateView } from './analysis.ts';
import type { Flowing } from './flowing.ts';
import type { Modes } from './model.ts';
import { modesOf } from './touchFacts.ts';

/** What holds on all paths at once; null where there is no path. */
export function stateView(flows: readonly Flowing[], dialect: DialectName): StateView | null {
  const [first] = flows;
  if (!first) return null;
  const views = flows.map((flow) => modesOf(flow.state));
  const modes = Object.fromEntries(
    Object.keys(views[0] ?? {}).map((g) => [g, [...new Set(views.flatMap((v) => v[g as keyof Modes]))]]),
  ) as unknown as Modes;
  const common = (read: (flow: Flowing) => unknown): number | null => {
    const value = read(first);
    return typeof value === 'number' && flows.every((f) => read(f) === value) ? value : null;
  };
  return {
    modes,
    feed: common((f) => (f.state.feed.unset ? null : f.state.feed.value)),
    position: {
      x: common((f) => f.state.position[0]),
      y: common((f) => f.state.position[1]),
      z: common((f) => f.state.position[2]),
    },
    parameter: (name) => common((f) => programValue(name, f, dialect)),
  };
}

const nobody: World = {
  assumedUnit: 'mm',
  parameter: () => null,
  touch() {},
  motion() {},
  used() {},
  offset() {},
  toolChange() {},
  fault() {},
};

/** What a parameter holds, written with or without its #. */
export function programValue(
  name: string,
  flow: Flowing,
  dialect: DialectName,
  world: World = nobody,
): Value {
  const bare = name
    .replace(/^#/, '')
    .replace(/^<(.*)>$/, '$1')
    .toLowerCase()
    .replace(/\s/g, '');
  const canonical = /^\d+$/.test(bare) ? String(Number(bare)) : bare;
  return readParameter(canonical, flow.state, world, dialect, { line: 0, start: 0, end: 0 });
}
