import type { Profile } from '../profile/profile.ts';
import { readParameter } from '../program/parameters.ts';
import type { Source } from '../syntax/source.ts';
import { modesOf } from './bookkeeping.ts';
import { type CalledFiles, noCalledFiles } from './calledFiles.ts';
import { datumsOf } from './datums.ts';
import type { Running } from './flowing.ts';
import { Follower } from './follow.ts';
import { type Graph, graphOf } from './graph.ts';
import { type JoinedProgram, joinedProgram } from './joinedProgram.ts';
import type { Datum, Departure, FlowFault, Modes, NotKnown, Touch, UntestedUse } from './model.ts';
import { datumInFile, isHere, touchInFile } from './ownFile.ts';
import { type Procedure, type Procedures, proceduresOf } from './procedures.ts';
import { touchesOfRecord } from './touches.ts';

/**
 * What is known of a program along every path through it, called files included. Touches, departures, uses and datums
 * are those whose blocks stand in the program itself; what stands in a called file is that file's to report.
 */
export interface Analysis {
  readonly source: Source;
  readonly procedures: Procedures;
  readonly called: CalledFiles;
  readonly touches: readonly Touch[];
  readonly departures: readonly Departure[];
  readonly untestedUses: readonly UntestedUse[];
  readonly datums: readonly Datum[];
  /** What the program's calls reach in other files, places counted in those. */
  readonly elsewhere: { readonly touches: readonly Touch[]; readonly datums: readonly Datum[] };
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

/**
 * Analyses a program with the profile of its probe. Never throws on any text; bounded in steps. Nothing is followed
 * before somebody asks: a file of another language, or one without touches, costs no more than its flow.
 */
export function analyse(source: Source, profile: Profile, called: CalledFiles = noCalledFiles): Analysis {
  const flow = once(() => flowOf(source));
  const program = once(() => joinedProgram(source, flow(), called));
  const follower = once(() => {
    const made = new Follower(program(), profile);
    made.run();
    return made;
  });
  const hasTouch = () => source.hasTouch() || called.files.some((file) => file.source.hasTouch());
  const results = once(() => resultsOf(hasTouch() ? follower() : null, flow(), program(), profile));
  return {
    source,
    called,
    get procedures() {
      return flow().procedures;
    },
    get touches() {
      return results().touches;
    },
    get departures() {
      return results().departures;
    },
    get untestedUses() {
      return results().untestedUses;
    },
    get datums() {
      return results().datums;
    },
    get elsewhere() {
      return results().elsewhere;
    },
    get flowFaults() {
      return [...flow().procedures.faults, ...flow().graphs.flatMap((g) => g.faults)];
    },
    get notKnown() {
      return results().notKnown;
    },
    stateAt: (line) => viewOf(follower().flowsBefore(line), source),
  };
}

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | null = null;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

interface ProgramFlow {
  readonly procedures: Procedures;
  readonly graphs: readonly Graph[];
  readonly graphFor: (procedure: Procedure) => Graph;
}

function flowOf(source: Source): ProgramFlow {
  const procedures = proceduresOf(source);
  const graphs = new Map(procedures.all.map((procedure) => [procedure, graphOf(source, procedure)] as const));
  const graphFor = (procedure: Procedure): Graph => graphs.get(procedure) ?? graphOf(source, procedure);
  return { procedures, graphs: [...graphs.values()], graphFor };
}

function resultsOf(follower: Follower | null, flow: ProgramFlow, program: JoinedProgram, profile: Profile) {
  const record = follower?.record ?? null;
  const reached = record ? [...touchesOfRecord(record)] : [];
  const touches = new Map(reached.map(([id, touch]) => [id, touchInFile(touch, program)] as const));
  const pair = <T extends { readonly touch: number }>(items: readonly T[]) =>
    items.flatMap((item) => {
      const touch = touches.get(item.touch);
      return touch && isHere(touch) ? [{ ...item, touch }] : [];
    });
  const isGuarded = (touch: Touch | undefined) =>
    touch !== undefined && !touch.alarms && !record?.coordinatesUsed.has(touch.id);
  const notKnown = [...flow.graphs.flatMap((g) => g.notKnown), ...(record?.notKnown ?? [])];
  if (follower?.cutShort) notKnown.push({ place: firstPlace, reason: tooManyPaths });
  const ordered = [...touches.values()].sort((a, b) => a.line - b.line || a.id - b.id);
  const datums = record ? datumsOf(record, touches, profile).map((datum) => datumInFile(datum, program)) : [];
  return {
    touches: ordered.filter(isHere),
    departures: record
      ? pair(record.departures.filter((d) => d.met || !isGuarded(touches.get(d.touch))))
      : [],
    untestedUses: record ? pair(record.untested) : [],
    datums: datums.filter(isHere),
    elsewhere: {
      touches: ordered.filter((touch) => !isHere(touch)),
      datums: datums.filter((datum) => !isHere(datum)),
    },
    notKnown: unique(notKnown),
  };
}

const firstPlace = { line: 0, start: 0, end: 0 };
const tooManyPaths = 'the program branches too often to follow every path';

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
