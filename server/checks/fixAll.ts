import type { Edit, Finding, Fix } from './rule.ts';

/**
 * The first fix of each finding that changes no motion, as far as they fit together. A fix that touches what an earlier
 * one touches is left for the next time, whole: half a fix is none.
 */
export function fittingFixes(findings: readonly Finding[]): Fix[] {
  const taken: Fix[] = [];
  const byLine = new Map<number, Edit[]>();
  const isFree = (edit: Edit) =>
    !linesOf(edit).some((line) => byLine.get(line)?.some((other) => overlap(edit, other)));
  for (const { fixes } of findings) {
    const fix = fixes.find((each) => !each.changesMotion);
    if (!fix?.edits.every(isFree)) continue;
    taken.push(fix);
    for (const edit of fix.edits)
      for (const line of linesOf(edit)) byLine.set(line, [...(byLine.get(line) ?? []), edit]);
  }
  return taken;
}

export function fixAllEdits(findings: readonly Finding[]): Edit[] {
  return fittingFixes(findings).flatMap(({ edits }) => edits);
}

function linesOf({ line, endLine }: Edit): number[] {
  return Array.from({ length: endLine - line + 1 }, (_, index) => line + index);
}

/** Two insertions at one place count: which comes first would be chance. */
function overlap(a: Edit, b: Edit): boolean {
  return !(endsBefore(a, b) || endsBefore(b, a));
}

function endsBefore(a: Edit, b: Edit): boolean {
  if (a.endLine !== b.line) return a.endLine < b.line;
  return a.end < b.start || (a.end === b.start && !(isInsertion(a) && isInsertion(b)));
}

function isInsertion(edit: Edit): boolean {
  return edit.line === edit.endLine && edit.start === edit.end;
}
