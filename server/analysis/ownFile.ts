import type { Place } from '../syntax/place.ts';
import type { JoinedProgram } from './joinedProgram.ts';
import type { Datum, DiameterUse, Touch, TouchFeed } from './model.ts';

/** Of the program itself, not of a file that it calls. */
export function isHere({ file }: { readonly file: string | null }): boolean {
  return file === null;
}

/** A touch with its places counted in the file that it stands in. */
export function touchInFile(touch: Touch, program: JoinedProgram): Touch {
  const file = program.elsewhere(touch.line);
  const calls = touch.calls.filter((line) => program.elsewhere(line) === null);
  const feed = feedInFile(touch.feed, file?.uri ?? null, program);
  if (file === null && calls.length === touch.calls.length && feed === touch.feed) return touch;
  const line = file?.line ?? touch.line;
  return { ...touch, file: file?.uri ?? null, line, place: { ...touch.place, line }, calls, feed };
}

/** A datum with its places counted in the file that it stands in. */
export function datumInFile(datum: Datum, program: JoinedProgram): Datum {
  const file = program.elsewhere(datum.line);
  const line = file?.line ?? datum.line;
  const place = { ...datum.place, line };
  const inFile = (uses: readonly DiameterUse[]) =>
    uses.map((use) => diameterInFile(use, file?.uri ?? null, place, program));
  const slopes = datum.slopes && { ...datum.slopes, diameters: inFile(datum.slopes.diameters) };
  const near = datum.near.map((each) => datumInFile(each, program));
  const magnitude = datum.magnitude && datumInFile(datum.magnitude, program);
  return {
    ...datum,
    file: file?.uri ?? null,
    line,
    place,
    diameters: inFile(datum.diameters),
    near,
    slopes,
    magnitude,
  };
}

/** An F word of another file has no place in this one. */
function feedInFile(feed: TouchFeed, file: string | null, program: JoinedProgram): TouchFeed {
  const places = [feed.place, ...feed.byPath.map(({ place }) => place)];
  if (places.every((place) => place === null || (file === null && program.elsewhere(place.line) === null)))
    return feed;
  const inFile = (place: Place | null) => place && placeInFile(place, file, program);
  return {
    ...feed,
    place: inFile(feed.place),
    byPath: feed.byPath.map((path) => ({ ...path, place: inFile(path.place) })),
  };
}

/** A diameter written in another file: its value counts, and nothing is said about how it is written there. */
function diameterInFile(
  use: DiameterUse,
  file: string | null,
  datum: Place,
  program: JoinedProgram,
): DiameterUse {
  const place = placeInFile(use.place, file, program);
  if (place) return { ...use, place };
  return { ...use, place: datum, source: use.source === 'effective' ? 'effective' : 'parameter' };
}

/** The place counted in that file (null: the program itself); null where it stands in another. */
function placeInFile(place: Place, file: string | null, program: JoinedProgram): Place | null {
  const there = program.elsewhere(place.line);
  if ((there?.uri ?? null) !== file) return null;
  return there ? { ...place, line: there.line } : place;
}
