import type { Profile } from '../profile/profile.ts';
import { readParameter } from '../program/parameters.ts';
import type { Source } from '../syntax/source.ts';
import { modesOf } from './bookkeeping.ts';
import { datumsOf } from './datums.ts';
import type { Running } from './flowing.ts';
import { Follower } from './follow.ts';
import { type Graph, graphOf } from './graph.ts';
import type { Datum, Departure, FlowFault, Modes, NotKnown, Touch, UntestedUse } from './model.ts';
import { type Procedure, type Procedures, proceduresOf } from './procedures.ts';
import { touchesOfRecord } from './touches.ts';

/** What is known of a program along every path through it. */
export interface Analysis {
  readonly source: Source;
  readonly procedures: Procedures;
  readonly touches: readonly Touch[];
  readonly departures: readonly Departure[];
  readonly untestedUses: readonly UntestedUse[];
  readonly datums: readonly Datum[];
  readonly flowFaults: readonly FlowFault[];
  /** Where the analysis stopped following: said aloud, never an empty list without a word. */
  readonly notKnown: readonly NotKnown[];
  /** What holds before the line (0-based) runs, joined over all paths; null where no path gets there. */
  stateAt(line: number): StateView | null;
}

export interface StateView {
  readonly modes: Modes;
  /** mm/min where known. */
  readonly feed: number | null;
  /** Program units, work coordinates; null where not known. */
  readonly position: Readonly<Record<'x' | 'y' | 'z', number | null>>;
  /** `#100`, `100`, `#<name>` or `name`; null where its value is not known. */
  parameter(name: string): number | null;
}

/** Analyses a program with the profile of its probe. Never throws on any text; bounded in steps. */
export function analyse(source: Source, profile: Profile): Analysis {
  const procedures = proceduresOf(source);
  const graphs = new Map<Procedure, Graph>();
  const graphFor = (procedure: Procedure): Graph => {
    let graph = graphs.get(procedure);
    if (!graph) {
      graph = graphOf(source, procedure);
      graphs.set(procedure, graph);
    }
    return graph;
  };
  const all = procedures.all.map(graphFor);
  let follower: Follower | null = null;
  const followed = (): Follower => {
    if (!follower) {
      follower = new Follower(source, procedures, graphFor, profile);
      follower.run();
    }
    return follower;
  };
  // A program without touches is followed only when somebody asks for the state at a line.
  const record = source.hasTouch() ? followed().record : null;
  const touches = record ? touchesOfRecord(record) : new Map<number, Touch>();
  const pair = <T extends { readonly touch: number }>(items: readonly T[]) =>
    items.flatMap((item) => {
      const touch = touches.get(item.touch);
      return touch ? [{ ...item, touch }] : [];
    });
  const notKnown = [...all.flatMap((g) => g.notKnown), ...(record?.notKnown ?? [])];
  if (follower !== null && (follower as Follower).cutShort)
    notKnown.push({
      place: { line: 0, start: 0, end: 0 },
      reason: 'the program branches too often to follow every path',
    });
  return {
    source,
    procedures,
    touches: [...touches.values()].sort((a, b) => a.line - b.line || a.id - b.id),
    departures: record
      ? pair(record.departures.filter((d) => d.met || !isGuarded(touches.get(d.touch))))
      : [],
    untestedUses: record ? pair(record.untested) : [],
    datums: record ? datumsOf(record, touches, profile) : [],
    flowFaults: [...procedures.faults, ...all.flatMap((g) => g.faults)],
    notKnown: unique(notKnown),
    stateAt: (line) => viewOf(followed().flowsBefore(line), source),
  };

  function isGuarded(touch: Touch | undefined): boolean {
    return touch !== undefined && !touch.alarms && !record?.coordinatesUsed.has(touch.id);
  }
}

function unique(items: readonly NotKnown[]): NotKnown[] {
  const seen = new Set<string>();
  return items.filter(({ place, reason }) => {
    const key = `${place.line}:${place.start}:${reason}`;
    return seen.size < seen.add(key).size;
  });
}

function viewOf(flows: readonly Running[], source: Source): StateView | null {
  const [first] = flows;
  if (!first) return null;
  const views = flows.map((flow) => modesOf(flow.state));
  const modes = Object.fromEntries(
    Object.keys(views[0] ?? {}).map((g) => [g, [...new Set(views.flatMap((v) => v[g as keyof Modes]))]]),
  ) as unknown as Modes;
  const common = (read: (flow: Running) => unknown): number | null => {
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
    parameter: (name) => common((f) => programValue(name, f, source)),
  };
}

const nobody = {
  assumedUnit: 'mm',
  parameter: () => null,
  touch() {},
  motion() {},
  used() {},
  offset() {},
  toolChange() {},
  fault() {},
} as const;

function programValue(name: string, flow: Running, source: Source): unknown {
  const bare = name
    .replace(/^#/, '')
    .replace(/^<(.*)>$/, '$1')
    .toLowerCase()
    .replace(/\s/g, '');
  const canonical = /^\d+$/.test(bare) ? String(Number(bare)) : bare;
  return readParameter(canonical, flow.state, nobody, source.dialect.name, { line: 0, start: 0, end: 0 });
}
