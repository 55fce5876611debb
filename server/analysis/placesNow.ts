import type { Place } from '../syntax/place.ts';
import type { ProgramLines } from '../syntax/programLines.ts';
import type { FollowedText } from './followedText.ts';
import type { Datum, Term, TouchFeed } from './model.ts';

/** As the end of a place that is written down: wherever its line ends. */
export const wholeLine = -1;

/** Turns what was written down by names of lines into lines and places of one version. */
export class PlacesNow {
  constructor(
    private readonly text: FollowedText,
    private readonly lines: ProgramLines,
  ) {}

  line(name: number): number {
    return this.text.lineOf(name);
  }

  place({ line: name, start, end }: Place): Place {
    const line = this.text.lineOf(name);
    return { line, start, end: end === wholeLine ? this.lines.block(line).text.length : end };
  }

  feed(feed: TouchFeed): TouchFeed {
    if (feed.place === null && feed.byPath.length === 0) return feed;
    const place = feed.place && this.place(feed.place);
    const byPath = feed.byPath.map((path) => ({ ...path, place: path.place && this.place(path.place) }));
    return { ...feed, place, byPath };
  }

  /** Its parts in the order of the text. */
  datum(datum: Datum): Datum {
    const place = this.place(datum.place);
    const inText = <T extends { readonly place: Place }>(uses: readonly T[]) =>
      uses
        .map((use) => ({ ...use, place: this.place(use.place) }))
        .sort((a, b) => a.place.line - b.place.line || a.place.start - b.place.start);
    return {
      ...datum,
      line: place.line,
      place,
      terms: datum.terms && inOrder(datum.terms),
      diameters: inText(datum.diameters),
      constants: inText(datum.constants),
      near: datum.near.map((near) => this.datum(near)),
      slopes: datum.slopes && {
        ...datum.slopes,
        terms: inOrder(datum.slopes.terms),
        diameters: inText(datum.slopes.diameters),
        constants: inText(datum.slopes.constants),
      },
      magnitude: datum.magnitude && this.datum(datum.magnitude),
    };
  }
}

function inOrder(terms: readonly Term[]): readonly Term[] {
  return [...terms].sort((a, b) => a.touch.id - b.touch.id);
}
