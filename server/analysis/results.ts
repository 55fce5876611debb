import type { Profile } from '../profile/profile.ts';
import type { Place } from '../syntax/place.ts';
import { datumsOf } from './datums.ts';
import type { Follower, Workbench } from './follow.ts';
import type { Graph } from './graph.ts';
import type { JoinedProgram } from './joinedProgram.ts';
import type { NotKnown, Touch } from './model.ts';
import { datumInFile, isHere, touchInFile } from './ownFile.ts';
import { PlacesNow } from './placesNow.ts';
import { touchesOfRecord } from './touches.ts';

export interface Followed {
  readonly follower: Follower;
  readonly bench: Workbench;
}

/** What was written down on the last pass, as touches, datums and the rest of an analysis. */
export function resultsOf(
  followed: Followed | null,
  graphs: readonly Graph[],
  program: JoinedProgram,
  profile: Profile,
) {
  const notFollowed = graphs.flatMap((graph) => graph.notKnown);
  if (followed === null) return { ...nothing, notKnown: unique(notFollowed) };
  const { follower, bench } = followed;
  const { record } = follower;
  const now = new PlacesNow(bench.text, program.lines);
  const touches = new Map<number, Touch>();
  for (const [id, touch] of touchesOfRecord(record, bench.chains, now))
    touches.set(id, touchInFile(touch, program));
  const pair = <T extends { readonly touch: number; readonly place: Place }>(items: readonly T[]) =>
    items.flatMap((item) => {
      const touch = touches.get(item.touch);
      return touch && isHere(touch) ? [{ ...item, touch, place: now.place(item.place) }] : [];
    });
  const isGuarded = (id: number) => touches.get(id)?.alarms === false && !record.coordinatesUsed.has(id);
  const notKnown = record.notKnown.map((each) => ({ ...each, place: now.place(each.place) }));
  const cutShort = follower.cutShort ? [{ place: firstPlace, reason: tooManyPaths }] : [];
  const reached = [...touches.values()];
  const datums = datumsOf(record, touches, profile).map((datum) => datumInFile(now.datum(datum), program));
  datums.sort((a, b) => a.line - b.line || a.place.start - b.place.start);
  return {
    touches: reached.filter(isHere),
    departures: pair(record.departures.filter((each) => each.met || !isGuarded(each.touch))),
    untestedUses: pair(record.untested),
    datums: datums.filter(isHere),
    elsewhere: {
      touches: reached.filter((touch) => !isHere(touch)),
      datums: datums.filter((datum) => !isHere(datum)),
    },
    notKnown: unique([...notFollowed, ...notKnown, ...cutShort]),
  };
}

const nothing = {
  touches: [],
  departures: [],
  untestedUses: [],
  datums: [],
  elsewhere: { touches: [], datums: [] },
} as const;

const firstPlace = { line: 0, start: 0, end: 0 };
const tooManyPaths = 'the program branches too often to follow every path';

function unique(items: readonly NotKnown[]): NotKnown[] {
  const seen = new Set<string>();
  return items.filter(({ place, reason }) => {
    const key = `${place.line}:${place.start}:${reason}`;
    return seen.size < seen.add(key).size;
  });
}
