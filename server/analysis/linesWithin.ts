/** Of things in the order of their lines those that lie in half-open ranges of lines, which are in order. */
export function linesWithin<T extends { readonly line: number }>(
  all: readonly T[],
  ranges: readonly (readonly [number, number])[],
): T[] {
  return ranges.flatMap(([from, to]) => all.slice(firstFrom(all, from), firstFrom(all, to)));
}

/** Index of the first that is not before `line`. */
function firstFrom(all: readonly { readonly line: number }[], line: number): number {
  let low = 0;
  let high = all.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((all[middle]?.line ?? 0) < line) low = middle + 1;
    else high = middle;
  }
  return low;
}
