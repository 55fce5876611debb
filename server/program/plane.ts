import { namesIn } from './modes.ts';

/** Indices of a plane's axes, and the letters of an arc's centre along the first two. */
export interface PlaneAxes {
  readonly first: number;
  readonly second: number;
  /** The axis that a canned cycle drills along. */
  readonly normal: number;
  readonly centres: readonly [string, string];
}

const planes: Readonly<Record<string, PlaneAxes>> = {
  G17: { first: 0, second: 1, normal: 2, centres: ['I', 'J'] },
  G18: { first: 2, second: 0, normal: 1, centres: ['K', 'I'] },
  G19: { first: 1, second: 2, normal: 0, centres: ['J', 'K'] },
};

/** The plane in force; XY where nothing set one, as after M2 (NISTIR 6556, 3.6.1); null where it is not known. */
export function planeAxes(mask: number): PlaneAxes | null {
  const names = new Set(namesIn('plane', mask).map((name) => (name === 'unset' ? 'G17' : name)));
  const [name] = names;
  return names.size === 1 && name !== undefined ? (planes[name] ?? null) : null;
}
