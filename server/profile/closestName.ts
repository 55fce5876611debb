/** The candidate that was probably meant: within two slips of typing, or a third of the name's length; else null. */
export function closestName(name: string, candidates: readonly string[]): string | null {
  const most = Math.max(2, Math.floor(name.length / 3));
  const typed = name.toLowerCase();
  let best: string | null = null;
  let bestDistance = most + 1;
  for (const candidate of candidates) {
    if (Math.abs(candidate.length - name.length) >= bestDistance) continue;
    const distance = editDistance(typed, candidate.toLowerCase());
    if (distance < bestDistance && distance < candidate.length) {
      best = candidate;
      bestDistance = distance;
    }
  }
  return best;
}

/** Least number of letters put in, left out, changed or swapped with their neighbour (optimal string alignment). */
export function editDistance(left: string, right: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: right.length + 1 }, (_, column) => column);
  for (let row = 1; row <= left.length; row += 1) {
    const current = [row];
    for (let column = 1; column <= right.length; column += 1) {
      const same = left[row - 1] === right[column - 1] ? 0 : 1;
      let least = Math.min(
        (last[column] ?? 0) + 1,
        (current[column - 1] ?? 0) + 1,
        (last[column - 1] ?? 0) + same,
      );
      if (row > 1 && column > 1 && left[row - 1] === right[column - 2] && left[row - 2] === right[column - 1])
        least = Math.min(least, (beforeLast[column - 2] ?? 0) + 1);
      current.push(least);
    }
    beforeLast = last;
    last = current;
  }
  return last[right.length] ?? 0;
}
