import type { Edit, Finding, Fix } from '../checks/rule.ts';
import type { SourceText } from '../syntax/sourceText.ts';

/**
 * The text with one fix of each finding applied, of those that leave motion as it is. Where two would touch the same
 * text the first stands; the other is offered again on the result.
 */
export function applyFixes(
  text: SourceText,
  findings: readonly Finding[],
): { readonly text: SourceText; readonly applied: number } {
  const accepted: Edit[] = [];
  let applied = 0;
  for (const finding of findings) {
    const fix = finding.fixes.find(({ changesMotion }) => !changesMotion);
    if (fix === undefined || !fits(fix, accepted)) continue;
    accepted.push(...fix.edits);
    applied++;
  }
  // From the end, so that the places of the edits that are still to come stay right.
  const backwards = accepted.sort((a, b) => b.line - a.line || b.start - a.start);
  return { text: backwards.reduce((result, edit) => result.edit(edit), text), applied };
}

function fits({ edits }: Fix, accepted: readonly Edit[]): boolean {
  return edits.every((edit) => accepted.every((other) => apart(edit, other)));
}

function apart(a: Edit, b: Edit): boolean {
  return before(a, b) || before(b, a);
}

/** Two insertions at one place have no order, so they are not apart. */
function before(a: Edit, b: Edit): boolean {
  return a.endLine < b.line || (a.endLine === b.line && a.end < b.start);
}
