import type { Profile } from '../profile/profile.ts';
import type { Place } from '../syntax/place.ts';
import type { Analysis } from './analysis.ts';
import { datumsOf } from './datums.ts';
import type { Follower, Workbench } from './follow.ts';
import type { Graph } from './graph.ts';
import type { JoinedProgram } from './joinedProgram.ts';
import { leftSurfaces } from './leftSurfaces.ts';
import type {
  AlarmExit,
  Datum,
  Departure,
  Descent,
  FailedUse,
  Handover,
  NotKnown,
  PlaceLeftOut,
  PositionTest,
  StaleRead,
  Touch,
  UntestedUse,
} from './model.ts';
import { datumInFile, isHere, touchInFile } from './ownFile.ts';
import { placesLeftOutHere, positionTestsHere, staleReadsHere } from './placedHere.ts';
import { PlacesNow, wholeLine } from './placesNow.ts';
import type { Record, WrittenDeparture } from './record.ts';
import { staleTestOf } from './staleTests.ts';
import { touchesOfRecord } from './touches.ts';
import { unguardedMoves } from './unguardedMoves.ts';

export interface Followed {
  readonly follower: Follower;
  readonly bench: Workbench;
}

export interface Results {
  readonly touches: readonly Touch[];
  readonly departures: readonly Departure[];
  readonly unguardedMoves: readonly Departure[];
  readonly untestedUses: readonly UntestedUse[];
  readonly failedUses: readonly FailedUse[];
  readonly alarmExits: readonly AlarmExit[];
  readonly staleReads: readonly StaleRead[];
  readonly positionTests: readonly PositionTest[];
  readonly descents: readonly Descent[];
  readonly datums: readonly Datum[];
  readonly placesLeftOut: readonly PlaceLeftOut[];
  readonly handovers: readonly Handover[];
  readonly elsewhere: Analysis['elsewhere'];
  readonly notKnown: readonly NotKnown[];
}

/** Touches or datums taken between two pauses. */
const atOnce = 100;

/**
 * What was written down on the last pass, as touches, datums and the rest of an analysis. Yields where it may pause;
 * before each step the text must have been turned to the version.
 */
export function* resultsOf(
  followed: Followed | null,
  graphs: readonly Graph[],
  program: JoinedProgram,
  profile: Profile,
): Generator<void, Results> {
  const notFollowed = graphs.flatMap((graph) => graph.notKnown);
  if (followed === null) return { ...nothing, notKnown: unique(notFollowed) };
  const { follower, bench } = followed;
  const { record } = follower;
  const now = new PlacesNow(bench.text, program.lines);
  const touches = yield* touchesById(followed, program);
  yield;
  const pair = <T extends { readonly touch: number; readonly place: Place }>(items: readonly T[]) =>
    items.flatMap((item) => {
      const touch = touches.get(item.touch);
      return touch && isHere(touch) ? [{ ...item, touch, place: now.place(item.place) }] : [];
    });
  const isGuarded = (id: number) => touches.get(id)?.alarms === false && !record.coordinatesUsed.has(id);
  const notKnown = record.notKnown.map((each) => ({ ...each, place: now.place(each.place) }));
  const cutShort = follower.cutShort ? [{ place: firstPlace, reason: tooManyPaths }] : [];
  const reached = [...touches.values()];
  const datums: Datum[] = [];
  for (const [i, datum] of datumsOf(record, touches, profile).entries()) {
    datums.push(datumInFile(now.datum(datum), program));
    if (i % atOnce === 0) yield;
  }
  datums.sort((a, b) => a.line - b.line || a.place.start - b.place.start);
  yield;
  const handovers = follower.cutShort ? [] : handoversHere(record.handovers, now, program);
  // Another touch at the same spot makes one before it no mere way there.
  const isTravel = (id: number) => isGuarded(id) && !record.notAlone.has(id);
  const left = leftSurfaces(record).filter(
    ({ contact, touch, kind }) =>
      contact === 'met' || !(kind === 'retract' ? isTravel(touch) : isGuarded(touch)),
  );
  const departures = pair(left.map(bare));
  yield;
  return {
    touches: reached.filter(isHere),
    departures,
    unguardedMoves: pair(unguardedMoves(record, touches).map(bare)),
    untestedUses: pair(
      record.untested.map((use) => ({ ...use, staleTest: staleTestOf(use, record, touches) })),
    ).map(({ staleTest, ...use }) => ({
      ...use,
      staleTest: staleTest && { ...staleTest, place: now.place(staleTest.place) },
    })),
    failedUses: pair(record.failedUses)
      .filter(({ touch }) => !touch.alarms)
      .map((use) => ({ ...use, test: now.place(use.test) })),
    alarmExits: pair(record.alarms.map((exit) => ({ ...exit, isGuarded: isGuarded(exit.touch) }))),
    descents: record.descents.flatMap(({ place: named, mm }) => {
      const place = now.place(named);
      return program.elsewhere(place.line) === null ? [{ place, mm }] : [];
    }),
    positionTests: positionTestsHere(record.tests, touches, now, program),
    staleReads: staleReadsHere(record.staleReads, touches, now, program),
    datums: datums.filter(isHere),
    placesLeftOut: placesLeftOutHere(record.placesLeftOut, touches, now, program),
    handovers,
    elsewhere: {
      touches: reached.filter((touch) => !isHere(touch)),
      datums: datums.filter((datum) => !isHere(datum)),
      departures: departuresFromElsewhere(left, touches, now, program),
      untestedUses: untestedFromElsewhere(record, touches, now),
      failedUses: failedFromElsewhere(record, touches, now),
    },
    notKnown: unique([...notFollowed, ...notKnown, ...cutShort]),
  };
}

/** All touches that were reached, those of called files too, by the ids of the record. */
export function* touchesById(
  { follower, bench }: Followed,
  program: JoinedProgram,
): Generator<void, ReadonlyMap<number, Touch>> {
  const isAlone = program.sources.length === 1;
  const known = isAlone ? bench.found.touches(follower.record) : null;
  if (known) return known;
  const now = new PlacesNow(bench.text, program.lines);
  const touches = new Map<number, Touch>();
  for (const [id, touch] of yield* touchesOfRecord(follower.record, bench.chains, now))
    touches.set(id, touchInFile(touch, program));
  if (isAlone) bench.found.keepTouches(follower.record, touches);
  return touches;
}

const nothing = {
  touches: [],
  departures: [],
  unguardedMoves: [],
  untestedUses: [],
  failedUses: [],
  alarmExits: [],
  staleReads: [],
  positionTests: [],
  descents: [],
  datums: [],
  placesLeftOut: [],
  handovers: [],
  elsewhere: { touches: [], datums: [], departures: [], untestedUses: [], failedUses: [] },
} as const;

const firstPlace = { line: 0, start: 0, end: 0 };
const tooManyPaths = 'the program branches too often to follow every path';

/** Those of the program itself, their places and calls counted in it. */
function handoversHere(
  written: readonly Handover[],
  now: PlacesNow,
  program: JoinedProgram,
): readonly Handover[] {
  const isOwn = (line: number) => program.elsewhere(line) === null;
  return written.flatMap((each) => {
    const place = now.place(each.place);
    if (!isOwn(place.line)) return [];
    return [{ ...each, place, calls: each.calls.map((name) => now.line(name)).filter(isOwn) }];
  });
}

/** Of touches in called files, what comes next outside of them: their own files can't know of it. */
function departuresFromElsewhere(
  written: readonly WrittenDeparture[],
  touches: ReadonlyMap<number, Touch>,
  now: PlacesNow,
  program: JoinedProgram,
): Departure[] {
  return written.flatMap((each) => {
    const touch = touches.get(each.touch);
    if (!touch || isHere(touch)) return [];
    const place = now.place(each.place);
    const isOwn = program.elsewhere(now.line(each.at.line)) === null;
    return isOwn || place.line !== touch.calls.at(-1) ? [{ ...bare(each), touch, place }] : [];
  });
}

/** Of touches in called files, what the program itself makes of their results: their own files can't know of it. */
function untestedFromElsewhere(
  record: Record,
  touches: ReadonlyMap<number, Touch>,
  now: PlacesNow,
): UntestedUse[] {
  return record.untested.flatMap(({ touch: id, place, how }) => {
    const touch = touches.get(id);
    // A whole line is the call that a use in another file shows as.
    if (!touch || isHere(touch) || place.end === wholeLine) return [];
    return [{ touch, place: now.place(place), how, staleTest: null }];
  });
}

/** Of touches in called files, what the program itself makes of their results on the failing side of its own test. */
function failedFromElsewhere(
  record: Record,
  touches: ReadonlyMap<number, Touch>,
  now: PlacesNow,
): FailedUse[] {
  return record.failedUses.flatMap(({ touch: id, test, place, how }) => {
    const touch = touches.get(id);
    if (!touch || isHere(touch) || touch.alarms) return [];
    if (place.end === wholeLine || test.end === wholeLine) return [];
    return [{ touch, test: now.place(test), place: now.place(place), how }];
  });
}

/** Without what only the record can make something of: ids hang on what an analyst has met before. */
function bare({ touch, place, kind, component }: WrittenDeparture) {
  return { touch, place, kind, component };
}

function unique(items: readonly NotKnown[]): NotKnown[] {
  const seen = new Set<string>();
  return items.filter(({ place, reason }) => {
    const key = `${place.line}:${place.start}:${reason}`;
    return seen.size < seen.add(key).size;
  });
}
