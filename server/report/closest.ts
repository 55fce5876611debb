/** The candidate that a person most likely meant: at most a third of it mistyped; null where none is near. */
export function closest(text: string, candidates: readonly string[]): string | null {
  let best: string | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const candidate of candidates) {
    const distance = editDistance(text.toLowerCase(), candidate.toLowerCase());
    if (distance < least && distance <= Math.max(1, candidate.length / 3)) {
      best = candidate;
      least = distance;
    }
  }
  return best;
}

/** Least number of single-character insertions, deletions and replacements (Levenshtein). */
function editDistance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const replaced = (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(replaced, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    row = next;
  }
  return row[b.length] ?? 0;
}
