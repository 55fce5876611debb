import type { Place } from '../syntax/place.ts';
import type { Value } from './value.ts';

/** A known feed, mm/min, and the F word that gave it. */
export interface KnownFeed {
  readonly value: number;
  readonly place: Place | null;
}

interface Joined {
  readonly value: Value;
  readonly place: Place | null;
  readonly byPath: readonly KnownFeed[];
}

const most = 8;

/** The known feeds of two paths that meet, slowest first; of more than eight the fastest ones are kept. */
export function feedsByPath(a: Joined, b: Joined): readonly KnownFeed[] {
  const feeds = new Map<number, KnownFeed>();
  for (const feed of [...known(a), ...known(b)]) if (!feeds.has(feed.value)) feeds.set(feed.value, feed);
  return [...feeds.values()].sort((x, y) => x.value - y.value).slice(-most);
}

export function sameFeeds(a: readonly KnownFeed[], b: readonly KnownFeed[]): boolean {
  return a.length === b.length && a.every(({ value }, i) => value === b[i]?.value);
}

function known({ value, place, byPath }: Joined): readonly KnownFeed[] {
  return typeof value === 'number' ? [{ value, place }] : byPath;
}
