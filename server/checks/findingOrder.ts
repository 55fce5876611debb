import type { Finding } from './rule.ts';

/** In the order of the text; one of a rule at a place, the last that was found. */
export function sorted(findings: readonly Finding[]): Finding[] {
  if (findings.length === 0) return [];
  const inOrder = [...findings].sort(compare);
  return inOrder.filter((finding, i) => compare(finding, inOrder[i + 1]) !== 0);
}

/** Two lists that are sorted, as one; where both have the same rule at the same place the second one's counts. */
export function merged(first: readonly Finding[], second: readonly Finding[]): readonly Finding[] {
  if (first.length === 0) return second;
  if (second.length === 0) return first;
  const all: Finding[] = [];
  let next = 0;
  for (const finding of first) {
    for (let other = second[next]; other && compare(other, finding) < 0; other = second[++next])
      all.push(other);
    if (compare(finding, second[next]) !== 0) all.push(finding);
  }
  for (; next < second.length; next++) all.push(second[next] as Finding);
  return all;
}

function compare(a: Finding, b: Finding | undefined): number {
  if (!b) return -1;
  const difference = a.place.line - b.place.line || a.place.start - b.place.start;
  if (difference !== 0 || a.rule === b.rule) return difference;
  return a.rule < b.rule ? -1 : 1;
}
